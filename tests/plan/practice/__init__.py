"""Practice jobs: keys, reviews, and what is kept back while somebody practices."""
