"""Stands in the browser's library for `asyncio`, which the runtime imports at start and the core never uses.

It would bring sixty modules, those of sockets and processes among them.
"""
