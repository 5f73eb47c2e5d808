"""Pictures of results: each with its finding as title, a text alternative and its table; pure functions, one theme."""
