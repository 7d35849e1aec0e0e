package main

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/evapbook/evapbook/tools/licences"
)

// Software bill of materials. Source: CycloneDX 1.5, JSON; purl of Go modules:
// package-url/purl-spec, type golang.
type (
	bill struct {
		BomFormat    string       `json:"bomFormat"`
		SpecVersion  string       `json:"specVersion"`
		SerialNumber string       `json:"serialNumber"`
		Version      int          `json:"version"`
		Metadata     metadata     `json:"metadata"`
		Components   []component  `json:"components"`
		Dependencies []dependency `json:"dependencies"`
	}
	metadata struct {
		Timestamp string    `json:"timestamp"`
		Component component `json:"component"`
	}
	component struct {
		Type     string    `json:"type"`
		Ref      string    `json:"bom-ref"`
		Name     string    `json:"name"`
		Version  string    `json:"version"`
		Hashes   []hash    `json:"hashes,omitempty"`
		Licenses []license `json:"licenses"`
		Purl     string    `json:"purl"`
	}
	hash struct {
		Alg     string `json:"alg"`
		Content string `json:"content"`
	}
	license struct {
		Expression string `json:"expression"`
	}
	dependency struct {
		Ref       string   `json:"ref"`
		DependsOn []string `json:"dependsOn"`
	}
)

// sbom writes what any of the programs links.
func (r *release) sbom() error {
	b, err := billOf(r.origin, r.modules)
	if err != nil {
		return err
	}
	text, err := json.MarshalIndent(b, "", "  ")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(r.folder, "evapbook-"+r.origin.number()+".cdx.json"), append(text, '\n'), 0o644)
}

func billOf(o origin, modules []licences.Module) (*bill, error) {
	self := part("github.com/evapbook/evapbook", o.version, "Apache-2.0")
	self.Type = "application"
	id := sha256.Sum256([]byte(self.Ref)) // the same release, the same number
	b := &bill{
		BomFormat: "CycloneDX", SpecVersion: "1.5", SerialNumber: uuid(id), Version: 1,
		Metadata:     metadata{o.date.Format(time.RFC3339), self},
		Dependencies: []dependency{{Ref: self.Ref}},
	}

	for _, m := range modules {
		c := part(m.Path, m.Version, m.Licence)
		if m.Sum != "" {
			sum, err := base64.StdEncoding.DecodeString(strings.TrimPrefix(m.Sum, "h1:"))
			if err != nil {
				return nil, fmt.Errorf("checksum of %s: %w", m.Path, err)
			}
			c.Hashes = []hash{{"SHA-256", hex.EncodeToString(sum)}}
		}
		b.Components = append(b.Components, c)
		b.Dependencies[0].DependsOn = append(b.Dependencies[0].DependsOn, c.Ref)
	}
	return b, nil
}

func part(path, version, licence string) component {
	purl := "pkg:golang/" + path + "@" + version
	return component{Type: "library", Ref: purl, Name: path, Version: version, Licenses: []license{{licence}}, Purl: purl}
}

// uuid is a number of the kind that is made from a name (RFC 9562, version 8).
func uuid(id [32]byte) string {
	id[6] = id[6]&0x0f | 0x80
	id[8] = id[8]&0x3f | 0x80
	return fmt.Sprintf("urn:uuid:%x-%x-%x-%x-%x", id[:4], id[4:6], id[6:8], id[8:10], id[10:16])
}
