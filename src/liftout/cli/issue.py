import typer
def issue() -> None:
    """x"""
