"""The pages that are made from what the compiler and its library say of themselves."""
