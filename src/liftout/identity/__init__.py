"""What makes two dockets the same: the digests of job, tables, methods and engine."""
