"""Answers kept beside the notes: files that a person can read and edit, keyed to the words that were asked about."""
