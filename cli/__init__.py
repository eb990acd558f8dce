"""The command line: it reads files, calls the optimiser and shows what came back."""
