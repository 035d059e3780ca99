"""Chapters: one file each. A chapter picks facts, findings and drawings for its template of the same name; it computes nothing.

The file `electrical.py` defines the function `electrical(matter)`, which answers with what `templates/manual/electrical.md.j2`
prints. Beside the chapters stand `matter` (what papers are written from) and `said` (how facts are said in them).
"""
