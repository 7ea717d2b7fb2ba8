"""The numeric kernel: arrays in, arrays out, bodies first. No source places, units, words."""
