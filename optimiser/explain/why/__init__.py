"""Why a plan has what it has in one place, and what another choice there would cost."""
