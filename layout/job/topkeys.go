package job

import (
	"fmt"

	"gopkg.in/yaml.v3"
)

// TopKeys are the keys at the top of a job file or of one that jobs include, in the
// order of the file.
func TopKeys(data []byte) ([]string, error) {
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		return nil, fmt.Errorf("it cannot be read as YAML: %w", err)
	}
	if len(doc.Content) == 0 || doc.Content[0].Kind != yaml.MappingNode {
		return nil, fmt.Errorf("it has no keys")
	}
	var out []string
	for i := 0; i < len(doc.Content[0].Content); i += 2 {
		out = append(out, doc.Content[0].Content[i].Value)
	}
	return out, nil
}
