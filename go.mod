module github.com/southyard/southyard

go 1.26.0

require (
	github.com/chromedp/chromedp v0.15.1
	github.com/fogleman/gg v1.3.0
	github.com/go-pdf/fpdf v0.9.0
	github.com/golang/freetype v0.0.0-20170609003504-e2365dfdc4a0
	github.com/golang/geo v0.0.0-20260818125358-b200a1149890
	github.com/paulmach/orb v0.12.0
	github.com/qmuntal/gltf v0.28.0
	github.com/urfave/cli/v2 v2.27.7
	go.yaml.in/yaml/v3 v3.0.4
	golang.org/x/image v0.47.0
	golang.org/x/term v0.48.0
)

require (
	github.com/chromedp/cdproto v0.0.0-20260321001828-e3e3800016bc // indirect
	github.com/chromedp/sysutil v1.1.0 // indirect
	github.com/cpuguy83/go-md2man/v2 v2.0.7 // indirect
	github.com/go-json-experiment/json v0.0.0-20260214004413-d219187c3433 // indirect
	github.com/gobwas/httphead v0.1.0 // indirect
	github.com/gobwas/pool v0.2.1 // indirect
	github.com/gobwas/ws v1.4.0 // indirect
	github.com/russross/blackfriday/v2 v2.1.0 // indirect
	github.com/xrash/smetrics v0.0.0-20240521201337-686a1a2994c1 // indirect
	golang.org/x/sys v0.50.0 // indirect
)
