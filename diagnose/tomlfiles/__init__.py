"""Reading TOML files into models; every fault told with its line."""
