"""Many seasons under many rule sets, solved side by side and compared."""
