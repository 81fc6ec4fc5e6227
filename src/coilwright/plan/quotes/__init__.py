"""Quotes on one footing: what each supplier would ship for this job, and what it lands at."""
