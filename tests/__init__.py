"""The tests: worked cases, published values, laws that must hold, and benchmarks."""
