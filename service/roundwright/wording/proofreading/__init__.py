"""What is wrong with a pattern, and the smallest edits with which it comes out."""
