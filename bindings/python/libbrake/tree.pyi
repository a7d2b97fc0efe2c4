from typing import Any

class Tree:
    def __getattr__(self, name: str) -> Any: ...

class Named(dict[str, Any]):
    def __getattr__(self, name: str) -> Any: ...
