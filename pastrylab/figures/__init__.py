"""One module a lesson; a figure is built once and then only updated."""
