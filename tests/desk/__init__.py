"""Tests of the desk: who is answered, and what is entered."""
