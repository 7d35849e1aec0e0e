package job

import "strings"

// FileName is what files about the site are called, without an ending: its
// name in small letters, digits and hyphens.
func (j *Job) FileName() string {
	var b strings.Builder
	for _, r := range strings.ToLower(j.Site.Name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	name := strings.Trim(b.String(), "-")
	if name == "" {
		return "evapbook"
	}
	return name
}
