"""How fast the program is, held against yardsticks on the same machine at the same time."""
