"""The handout: its content, and that as text, HTML and PDF.

May import `proofreading` and what is below it.
"""
