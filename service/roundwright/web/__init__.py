"""HTTP: the application and its server, middleware, keys, errors, logs and settings; `routes/` has the operations.

May import every other package; none may import it. The order of its files stands in `pyproject.toml`.
"""
