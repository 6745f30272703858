package ink

import (
	"image"
	"image/color"
)

// shrink turns a drawing of few colours into an indexed picture, which is
// smaller and quicker to write, and leaves one of many colours as it is. No
// dot changes colour.
func shrink(im *image.RGBA) image.Image {
	var pal color.Palette
	index := make(map[uint32]uint8, 256)
	out := image.NewPaletted(im.Rect, nil)
	last, lastIndex := uint32(0), -1
	for i := 0; i+3 < len(im.Pix); i += 4 {
		q := im.Pix[i : i+4 : i+4]
		key := uint32(q[0]) | uint32(q[1])<<8 | uint32(q[2])<<16 | uint32(q[3])<<24
		if lastIndex < 0 || key != last {
			k, ok := index[key]
			if !ok {
				if len(pal) == 256 {
					return im
				}
				k = uint8(len(pal))
				index[key] = k
				pal = append(pal, color.RGBA{q[0], q[1], q[2], q[3]})
			}
			last, lastIndex = key, int(k)
		}
		out.Pix[i/4] = uint8(lastIndex)
	}
	out.Palette = pal
	return out
}
