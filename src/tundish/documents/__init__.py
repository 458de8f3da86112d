"""Papers and drawings, described without any file format."""
