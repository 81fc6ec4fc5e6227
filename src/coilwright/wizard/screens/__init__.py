"""The screens: the list of jobs, the wizard, and what opens over them."""
