"""The round: steps executed and chained, the written line, rounds as rows, and changes spread evenly.

May import `reference`, `answers` and `quantities`.
"""
