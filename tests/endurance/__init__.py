"""What must not be lost, tried for long: `python -m tests.endurance`; short versions are tests."""
