"""The server's addresses: thin handlers over the functions beside this folder."""
