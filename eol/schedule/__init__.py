"""What is due in a plant, done once and in order; and the units by which a machine calls it."""
