"""`python -m notesparse`."""

from notesparse.cli.app import main

if __name__ == "__main__":
    main()
