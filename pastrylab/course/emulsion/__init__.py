"""Lesson 03, ganache."""
