"""From a tree to a typed program: names resolved, types checked and the graph built in one walk,
then linked with the blocks a recipe takes. Loads no numeric library."""
