"""The page: boxes, cards, benches and pictures, whatever they are about."""
