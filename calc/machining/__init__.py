"""What is not angle: the blank, the cuts, flats, fits and threads."""
