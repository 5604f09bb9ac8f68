"""From words to phrases: a reader for each kind of thing that a line says, one built on the other."""
