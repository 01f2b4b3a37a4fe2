package org.rejoin.console.grade;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;

/**
 * The grade of one amendment.
 *
 * @param say what ATC said
 * @param atS when, seconds since the first sample
 * @param criteria what was graded, and what was to be graded and could not be
 * @param faults in order of time
 * @param notes what is told and does not count
 * @param takenBackWhen how long after it was said the controller took it back, in words, and that nothing of the way back was
 *     flown; empty where he did not
 * @param cutShort that the next clearance came before any of its way was due, its turn or its course, in words; empty where it
 *     did not
 */
public record AmendmentGrade(
        String say,
        double atS,
        List<Criterion> criteria,
        List<Fault> faults,
        List<String> notes,
        Optional<String> takenBackWhen,
        Optional<String> cutShort) {

    /** Less than this share of the points judged is no score; common practice, no source. */
    private static final double LEAST_JUDGED = 0.5;

    public AmendmentGrade {
        criteria = List.copyOf(criteria);
        faults = List.copyOf(faults);
        notes = List.copyOf(notes);
    }

    /** {@return whether the controller took it back before it was flown} */
    public boolean takenBack() {
        return takenBackWhen.isPresent();
    }

    /**
     * This and what was flown of the same clearance once it stood again, by the words of which all that was said is known: each
     * criterion once, as badly as it was flown, and one fault of a kind.
     */
    AmendmentGrade goingOn(AmendmentGrade later) {
        Map<Criterion.Kind, Criterion> worst = new EnumMap<>(Criterion.Kind.class);
        Stream.of(this, later)
                .flatMap(part -> part.criteria().stream())
                .forEach(criterion -> worst.merge(criterion.kind(), criterion, Criterion::orWorse));
        List<Fault> one = new ArrayList<>(faults);
        for (Fault fault : later.faults()) {
            Optional<Fault> same =
                    one.stream().filter(each -> each.code() == fault.code()).findFirst();
            if (same.isEmpty()) {
                one.add(fault);
            } else if (fault.cost() > same.get().cost()) {
                one.set(one.indexOf(same.get()), fault);
            }
        }
        one.sort(Comparator.comparingDouble(Fault::atS));
        worst.computeIfPresent(
                Criterion.Kind.FAULTS,
                (kind, faulty) -> AmendmentGrader.counted(one, Span.of(faulty.fromS(), faulty.toS())));
        List<String> all = new ArrayList<>(notes);
        later.notes().stream().filter(note -> !all.contains(note)).forEach(all::add);
        return new AmendmentGrade(
                later.say(), atS, List.copyOf(worst.values()), one, all, later.takenBackWhen(), later.cutShort());
    }

    /**
     * {@return points earned of those that could be earned; 0 to 100; empty where less than half of what the clearance asks
     * for could be judged}
     */
    public OptionalDouble score() {
        return score(criteria);
    }

    static OptionalDouble score(List<Criterion> criteria) {
        double most = criteria.stream().mapToDouble(Criterion::maxPoints).sum();
        double open = criteria.stream()
                .filter(criterion -> !criterion.judged())
                .mapToDouble(criterion -> criterion.kind().maxPoints())
                .sum();
        double judged = criteria.stream()
                .filter(criterion -> criterion.kind() != Criterion.Kind.FAULTS)
                .mapToDouble(Criterion::maxPoints)
                .sum();
        return most == 0 || judged < LEAST_JUDGED * (judged + open)
                ? OptionalDouble.empty()
                : OptionalDouble.of(
                        100 * criteria.stream().mapToDouble(Criterion::points).sum() / most);
    }

    /**
     * {@return whether the standard was met; not judged where nothing was, or something that the clearance asks for was not,
     * or it was taken back, or the next clearance came before any of its way was due: an altitude kept until then is not what
     * was asked}
     */
    public Verdict verdict() {
        Verdict flown =
                Verdict.together(criteria.stream().map(Criterion::verdict).toList());
        return flown == Verdict.MET && asksNoMore() ? Verdict.NOT_JUDGED : flown;
    }

    /** Whether what was not done of it is asked of nobody any more: it was taken back, or the next clearance came first. */
    boolean asksNoMore() {
        return takenBack() || cutShort.isPresent();
    }

    /** {@return why the standard is not judged; one line; empty where it is} */
    public Optional<String> notJudged() {
        List<String> why = new ArrayList<>();
        for (Criterion criterion : criteria) {
            criterion.notJudged().filter(each -> !why.contains(each)).ifPresent(why::add);
        }
        if (verdict() != Verdict.NOT_JUDGED) {
            return Optional.empty();
        }
        if (takenBack()) {
            return takenBackWhen;
        }
        if (cutShort.isPresent()) {
            return cutShort;
        }
        return Optional.of(
                !why.isEmpty() ? String.join("; ", why) : notes.isEmpty() ? "nothing was to be judged" : notes.get(0));
    }
}
