"""The front door."""
