"""Pages in millimetres and their writers; knows no digits."""
