"""Small changes of parts, saw or grain that save stock, each confirmed by cutting again."""
