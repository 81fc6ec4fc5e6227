"""Practice jobs: the key worked out, attempts held to it, and practice jobs made of jobs."""
