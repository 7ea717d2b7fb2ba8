"""The typed symbolic graph: types, hash-consed nodes, digests of meaning, closed forms."""
