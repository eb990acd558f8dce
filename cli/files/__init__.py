"""Reading and writing the files a person touches."""
