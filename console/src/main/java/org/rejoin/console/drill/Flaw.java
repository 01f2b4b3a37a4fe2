package org.rejoin.console.drill;

import java.util.List;
import java.util.Optional;

import org.rejoin.bridge.route.Warning;

/** Why a clearance of a paper drill cannot be flown as given. */
enum Flaw {
    /** The heading leads away from the line. */
    DOES_NOT_REACH(Warning.Code.HEADING_DOES_NOT_REACH_COURSE),
    /** Radial and airway cross at too flat an angle for a fix. */
    FLAT_CROSSING(Warning.Code.WEAK_FIX_GEOMETRY),
    /** The radial is used outside of its station's service volume. */
    OUT_OF_RANGE(Warning.Code.OUT_OF_SERVICE_VOLUME);

    private final Warning.Code warning;

    Flaw(Warning.Code warning) {
        this.warning = warning;
    }

    /** Whether the program warns of what is wanted: of nothing, or of the flaw and at most of the range besides. */
    static boolean isAsWanted(Optional<Flaw> flaw, List<Warning.Code> said) {
        return flaw.map(wanted -> said.contains(wanted.warning)
                        && said.stream().allMatch(code -> code == wanted.warning || code == OUT_OF_RANGE.warning))
                .orElse(said.isEmpty());
    }
}
