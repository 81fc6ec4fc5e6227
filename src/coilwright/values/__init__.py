"""The vocabulary of the core: figure, formula, source, standing, finding."""
