"""A job on a local page: its parts as forms, its findings beside them. The job file stays the truth; the page holds nothing of its own."""
