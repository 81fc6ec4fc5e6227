"""The steps, one file each: what is declared here is what the wizard shows."""
