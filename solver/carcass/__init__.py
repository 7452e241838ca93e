"""What a case is made of, and how its inside and outside sizes follow from each other."""
