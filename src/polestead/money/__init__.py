"""Ledger, engine hours turned into money, winters until paid."""
