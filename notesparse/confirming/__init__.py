"""Going through the open questions of some notes: which is next, what an answer changes, and the way back."""
