"""Documents: blocks, the words around findings, and their two writers, site and paper. They compute nothing.

document = Document(..., chapters=(Chapter(key, title, templating.chapter("manual/electrical.md.j2", findings=...)), ...))
paper.write(document)                       the PDF, as bytes
site.build((document, ...), folder, ...)    the static site
"""

from liftout.documents.document import Attachment, Chapter, Document, DocumentError, Reader, Revision, check

__all__ = ["Attachment", "Chapter", "Document", "DocumentError", "Reader", "Revision", "check"]
