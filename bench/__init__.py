"""Speed, size and memory, measured: `build.py bench`."""
