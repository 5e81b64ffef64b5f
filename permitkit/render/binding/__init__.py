"""Pages bound into one PDF: feet and page numbers, bookmarks, pages from outside, files inside."""
