"""The round: steps executed and chained, rounds as rows, and changes spread evenly over a round.

May import `reference`, `answers` and `quantities`.
"""
