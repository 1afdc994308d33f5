"""What the label of a pack says, and the composition that follows, with its error."""
