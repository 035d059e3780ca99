"""What an installation consists of: its libraries by version, hash and licence, what the wheel holds, and where it runs."""
