"""What stands behind build.py: standard library only, because it runs before anything is installed."""
