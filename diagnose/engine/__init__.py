"""Facts and rules in, firings out."""

from diagnose.engine.compile import OTHERWISE
from diagnose.engine.limits import EngineLimitError, limits
from diagnose.engine.session import EngineRefusedError, Firing, RuleEngine
from diagnose.engine.whatif import WhatIf

__all__ = ["OTHERWISE", "EngineLimitError", "EngineRefusedError", "Firing", "RuleEngine", "WhatIf", "limits"]
