package job

import "strings"

// longestFileName is the longest name for a file: systems take 255 bytes, people less.
const longestFileName = 80

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
	name := strings.Trim(b.String()[:min(b.Len(), longestFileName)], "-")
	if name == "" {
		return "evapbook"
	}
	return name
}
