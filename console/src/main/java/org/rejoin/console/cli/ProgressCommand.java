package org.rejoin.console.cli;

import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

import org.rejoin.console.skill.Estimate;
import org.rejoin.console.skill.Goal;
import org.rejoin.console.skill.GradedAttempt;
import org.rejoin.console.skill.Mark;
import org.rejoin.console.skill.Progress;
import org.rejoin.console.skill.Skill;
import org.rejoin.console.table.Cell;
import org.rejoin.console.table.Table;
import org.rejoin.console.words.Words;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** {@code progress}: what a pilot has shown, skill by skill. */
@Command(
        name = "progress",
        description =
                "Show what a pilot has shown so far, skill by skill: in words, and between how many and how many of 100 he gets"
                        + " right. It does not say whether a pilot is ready for anything.")
final class ProgressCommand extends AnyCommand.Verbose {

    @Mixin
    ForPilot who = new ForPilot();

    @Option(names = "--svg", paramLabel = "FILE", description = "Draw the skills over time, with their intervals.")
    @Nullable
    Path svg;

    @Option(names = "--json", description = "Print one JSON object.")
    boolean json;

    @Option(names = "--csv", description = "Print a table for a spreadsheet.")
    boolean csv;

    @Override
    public Integer call() throws BadInput, IOException {
        AttemptLines.notBoth(json, csv);
        List<GradedAttempt> attempts = who.attempts(spec);
        List<Mark> marks = GradedAttempt.marks(attempts);
        Progress progress = Progress.of(marks);
        Instant now = Instant.now();
        future(attempts, now).ifPresent(this::note);
        Path picture = svg;
        if (picture != null) {
            OutputFile.write("--svg", picture, ProgressPlot.svg(who.pilot, marks, now));
        }
        if (json) {
            out().println(json(who.pilot, attempts, progress, who.goal(), now).toPrettyString());
        } else if (csv) {
            table(progress, who.goal(), now);
        } else {
            print(attempts, progress, who.goal(), now);
        }
        return Rejoin.DONE;
    }

    /** An attempt of a machine whose clock is wrong puts off all that is due, and would do so without a word. */
    private static Optional<String> future(List<GradedAttempt> attempts, Instant now) {
        return attempts.stream()
                .map(GradedAttempt::at)
                .filter(at -> at.isAfter(now))
                .max(Comparator.naturalOrder())
                .map(last -> "an attempt is dated in the future, " + day(last)
                        + ": was the clock of its machine right? Until then its skills do not fall due");
    }

    /** For the page too. */
    static ObjectNode json(String pilot, List<GradedAttempt> attempts, Progress progress, Goal goal, Instant now) {
        ObjectNode object = JsonNodeFactory.instance.objectNode();
        object.put("pilot", pilot);
        ArrayNode skills = object.putArray("skills");
        for (Skill skill : Skill.values()) {
            Estimate estimate = progress.of(skill, now);
            ObjectNode each = skills.addObject();
            each.put("skill", skill.name());
            each.put("says", skill.says());
            each.put("p", rounded(estimate.p()));
            each.put("low", rounded(estimate.low()));
            each.put("high", rounded(estimate.high()));
            each.put("words", estimate.standing().word());
            if (estimate.last().isPresent()) {
                each.put("last", day(estimate.last().get()));
            } else {
                each.putNull("last");
            }
            each.put("due", day(progress.due(skill, goal, now)));
            each.put("marks", estimate.marks());
        }
        ArrayNode history = object.putArray("history");
        Progress.history(GradedAttempt.marks(attempts))
                .forEach(each -> history.addObject()
                        .put("at", each.last().map(Instant::toString).orElse(""))
                        .put("skill", each.skill().name())
                        .put("p", rounded(each.p()))
                        .put("low", rounded(each.low()))
                        .put("high", rounded(each.high())));
        object.put("attempts", attempts.size());
        object.put("note", future(attempts, now).orElse(""));
        ObjectNode faults = object.putObject("faults");
        faults(attempts).forEach(faults::put);
        ArrayNode times = object.putArray("work_out");
        attempts.forEach(attempt -> attempt.workOutS()
                .ifPresent(seconds -> times.addObject()
                        .put("at", attempt.at().toString())
                        .put("shape", attempt.shape())
                        .put("seconds", Math.round(seconds))));
        return object;
    }

    /** A skill, what is known of it, and when it is due. */
    private record Known(Skill skill, Estimate estimate, Instant due) {}

    private static final Table<Known> TABLE = new Table<>(List.of(
            new Table.Column<>("skill", each -> Cell.of(each.skill().name())),
            new Table.Column<>("p", each -> share(each.estimate().p())),
            new Table.Column<>("low", each -> share(each.estimate().low())),
            new Table.Column<>("high", each -> share(each.estimate().high())),
            new Table.Column<>(
                    "words", each -> Cell.of(each.estimate().standing().word())),
            new Table.Column<>(
                    "marks", each -> Cell.of(BigDecimal.valueOf(each.estimate().marks()))),
            new Table.Column<>(
                    "last",
                    each -> Cell.of(
                            each.estimate().last().map(ProgressCommand::day).orElse(""))),
            new Table.Column<>("due", each -> Cell.of(day(each.due())))));

    private static Cell share(double value) {
        return Cell.of(BigDecimal.valueOf(rounded(value)));
    }

    private void table(Progress progress, Goal goal, Instant now) {
        out().println(TABLE.csvHead());
        for (Skill skill : Skill.values()) {
            out().println(TABLE.csv(new Known(skill, progress.of(skill, now), progress.due(skill, goal, now))));
        }
    }

    private void print(List<GradedAttempt> attempts, Progress progress, Goal goal, Instant now) {
        out().println(who.pilot + ": " + Words.count(attempts.size(), "attempt"));
        for (Skill skill : Skill.values()) {
            Estimate estimate = progress.of(skill, now);
            boolean due = progress.isDue(skill, goal, now);
            String last = estimate.last().map(ProgressCommand::day).orElse("");
            out().println(Words.say(
                    "%-10s %-8s between %2.0f and %2.0f of 100; %s%s; %s",
                    skill,
                    estimate.standing().word(),
                    estimate.low() * 100,
                    estimate.high() * 100,
                    estimate.marks() == 0
                            ? "not seen yet"
                            : Words.count(estimate.marks(), "mark") + (last.isEmpty() ? "" : ", last " + last),
                    due ? ", due" : ", due " + day(progress.due(skill, goal, now)),
                    skill.says()));
        }
        faults(attempts).forEach((code, count) -> out().println(code + ": " + count));
        out().println(
                        "Of 100 drills of standard difficulty the pilot gets between ... and ... right; the true figure lies there in 9 of 10 cases."
                                + " The weights are judgement.");
        out().println(Rejoin.CAUTION);
    }

    private static SortedMap<String, Integer> faults(List<GradedAttempt> attempts) {
        SortedMap<String, Integer> faults = new TreeMap<>();
        attempts.forEach(attempt -> attempt.faults().forEach(code -> faults.merge(code, 1, Integer::sum)));
        return faults;
    }

    private static String day(Instant instant) {
        return LocalDate.ofInstant(instant, ZoneOffset.UTC).toString();
    }

    private static double rounded(double share) {
        return Math.round(share * 1000) / 1000.0;
    }
}
