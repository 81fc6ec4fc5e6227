"""Coils as they arrived, held to the plan they were ordered by."""
