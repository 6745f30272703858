package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// mostSiteBytes is more than any site file may have; reading stops there.
const mostSiteBytes = 8 << 20

// siteText reads the site file; - is standard input.
func siteText(name string) ([]byte, error) {
	if name == "-" {
		data, err := io.ReadAll(io.LimitReader(os.Stdin, mostSiteBytes))
		if err != nil {
			return nil, fmt.Errorf("cannot read the site file from standard input: %w", reason(err))
		}
		return data, nil
	}
	return readUpTo(mostSiteBytes, name, "southyard new "+name+" writes one to start from", "name a site file in it, or study all of them: southyard lots "+name)
}

// readUpTo reads so many bytes of a file at most. Of a file that is not there
// and of a folder it says what would be right.
func readUpTo(most int64, name, ifMissing, ifFolder string) ([]byte, error) {
	if info, err := os.Stat(name); err == nil && info.IsDir() {
		return nil, fmt.Errorf("%s is a folder; %s", name, ifFolder)
	}
	f, err := os.Open(name)
	if err == nil {
		defer f.Close()
		var data []byte
		if data, err = io.ReadAll(io.LimitReader(f, most)); err == nil {
			return data, nil
		}
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("cannot read %s: there is no such file; %s", name, ifMissing)
	case errors.Is(err, fs.ErrPermission):
		return nil, fmt.Errorf("cannot read %s: it may not be read by you; have its permissions changed, or a copy made", name)
	}
	return nil, fmt.Errorf("cannot read %s: %w", name, reason(err))
}
