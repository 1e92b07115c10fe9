package main

import (
	"github.com/spf13/cobra"

	"threepost/layout/document"
)

func formatCommand(t *terminal) *cobra.Command {
	var out bool
	cmd := &cobra.Command{
		Use:   "format LOAD",
		Short: "Write a load in its canonical form, comments kept",
		Long: `Puts keys, rows and pots into their fixed order and writes the file back. With
--print the text goes to standard output and the file stays as it is.`,
		Example: "  threepost format october.toml\n  threepost format october.toml --print",
		Args:    one("LOAD"),
		RunE: func(_ *cobra.Command, args []string) error {
			o, err := open(args[0])
			if err != nil {
				return err
			}
			if !out {
				return o.save(o.path, o.load)
			}
			text, err := document.Update(o.text, o.load)
			if err != nil {
				return unreadable(err)
			}
			return t.write("", text)
		},
	}
	cmd.Flags().BoolVar(&out, "print", false, "print it instead of writing the file")
	return cmd
}

func schemaCommand(t *terminal) *cobra.Command {
	return &cobra.Command{
		Use:     "schema",
		Short:   "Print the JSON Schema of the load document",
		Example: "  threepost schema > threepost.schema.json",
		Args:    cobra.NoArgs,
		RunE:    func(*cobra.Command, []string) error { return t.write("", document.Schema()) },
	}
}
