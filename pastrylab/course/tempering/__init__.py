"""Lesson 02, tempering."""
