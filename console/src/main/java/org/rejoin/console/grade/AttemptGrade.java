package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;

/**
 * The grade of one try.
 *
 * @param fromS its first sample, seconds since the first of the flight
 * @param amendments in order of time; none where no clearance was issued
 */
public record AttemptGrade(double fromS, double toS, List<AmendmentGrade> amendments) {

    public AttemptGrade {
        amendments = List.copyOf(amendments);
    }

    /** The criteria of all its amendments together, as on a card: each once, the worse measure, the points of all. */
    public List<Criterion> criteria() {
        Map<Criterion.Kind, Criterion> together = new EnumMap<>(Criterion.Kind.class);
        asked().stream()
                .flatMap(amendment -> amendment.criteria().stream())
                .forEach(criterion -> together.merge(criterion.kind(), criterion, Criterion::with));
        return List.copyOf(together.values());
    }

    /** {@return the faults of all its amendments, in order of time} */
    public List<Fault> faults() {
        return amendments.stream()
                .flatMap(amendment -> amendment.faults().stream())
                .toList();
    }

    /**
     * {@return points earned of those that could be earned, of all its amendments; 0 to 100; empty where less than half of
     * what the clearances ask for could be judged}
     */
    public OptionalDouble score() {
        return AmendmentGrade.score(asked().stream()
                .flatMap(amendment -> amendment.criteria().stream())
                .toList());
    }

    /** {@return whether the standard was met, met where it is for each amendment that was to be flown to its end} */
    public Verdict verdict() {
        return Verdict.together(asked().stream()
                .filter(amendment -> !amendment.asksNoMore() || amendment.verdict() == Verdict.NOT_MET)
                .map(AmendmentGrade::verdict)
                .toList());
    }

    /**
     * An amendment that was taken back, or replaced before anything of it was due, asks nothing of anybody, and gives no
     * points; what was done wrong while it stood counts.
     */
    private List<AmendmentGrade> asked() {
        return amendments.stream()
                .filter(amendment -> !amendment.criteria().isEmpty())
                .filter(amendment -> !amendment.takenBack() || amendment.verdict() == Verdict.NOT_MET)
                .toList();
    }

    /** {@return why the standard is not judged; one line; empty where it is} */
    public Optional<String> notJudged() {
        if (verdict() != Verdict.NOT_JUDGED) {
            return Optional.empty();
        }
        List<String> why = new ArrayList<>();
        List<AmendmentGrade> open = asked().isEmpty() ? amendments : asked();
        for (AmendmentGrade amendment : open) {
            amendment.notJudged().filter(each -> !why.contains(each)).ifPresent(why::add);
        }
        return Optional.of(why.isEmpty() ? "no clearance was issued" : String.join("; ", why));
    }
}
