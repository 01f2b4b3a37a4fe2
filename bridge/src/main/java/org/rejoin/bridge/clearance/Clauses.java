package org.rejoin.bridge.clearance;

import java.util.List;
import java.util.Optional;
import java.util.Set;

import org.rejoin.bridge.chart.Waypoint;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.AfterContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.CancelContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ExpectContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ExpectWordContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.InstructionContext;
import org.rejoin.bridge.clearance.grammar.ClearanceLanguageParser.ReportContext;

import org.antlr.v4.runtime.ParserRuleContext;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.tree.TerminalNode;
import org.antlr.v4.runtime.tree.Trees;
import org.jspecify.annotations.Nullable;

/**
 * Which words belong together: what is taken back, expected or reported ends at a comma, and a place between two
 * instructions belongs to one of them. Where it cannot be told the clearance is refused.
 */
final class Clauses {

    private static final String CLEARED_OR_EXPECTED =
            "cleared, or to be expected too? put a full stop before what is cleared, and \"expect\" before what is not";

    private static final Set<Integer> SAYS_WHEN = Set.of(
            ClearanceLanguageParser.ABOVE,
            ClearanceLanguageParser.BELOW,
            ClearanceLanguageParser.LEVEL,
            ClearanceLanguageParser.MILE,
            ClearanceLanguageParser.MINUTE,
            ClearanceLanguageParser.AT,
            ClearanceLanguageParser.AFTER,
            ClearanceLanguageParser.BEFORE);

    private final Source source;
    private @Nullable InstructionContext last;

    Clauses(Source source) {
        this.source = source;
    }

    /** Refuses what runs into what was said before it. */
    void check(InstructionContext part, Pause pause, List<Instruction> read) throws ClearanceException {
        InstructionContext before = last;
        last = part;
        if (before != null && part.filler() == null) {
            follows(before, part, pause, read);
        }
        if (part.expect() != null) {
            oneExpected(part.expect().expectWord());
        }
        if (part.filler() != null) {
            oneExpected(part.filler().expectWord());
        }
        if (part.cancel() != null
                && part.cancel().partOf() != null
                && !part.cancel().partOf().RESTRICTION().isEmpty()) {
            throw source.notUnderstood(
                    part.cancel(),
                    "which? say \"cancel speed restriction\", or \"cancel altitude restriction at\" a fix");
        }
        if (part.cancel() != null && part.cancel().partOf() != null) {
            throw partOnly(part.cancel().getStart(), part.cancel().getStop());
        }
    }

    private void follows(InstructionContext before, InstructionContext part, Pause pause, List<Instruction> read)
            throws ClearanceException {
        if (before.cancel() != null) {
            takenBack(before.cancel(), part, pause);
        } else if (before.leftOut() != null) {
            leftOut(before, part, pause);
        } else if (before.expect() != null) {
            expected(before.expect(), part, pause);
        } else if (before.report() != null) {
            reported(before.report(), part, pause, read);
        }
    }

    /** "Cancel direct PRION": a part of a clearance is not what "cancel" alone takes back. */
    private void takenBack(CancelContext cancel, InstructionContext part, Pause pause) throws ClearanceException {
        boolean named = cancel.THAT() != null
                || cancel.CLEARANCE() != null
                || cancel.AMENDMENT() != null
                || (cancel.MY() != null && !cancel.MY().isEmpty() && cancel.partOf() == null);
        if (pause.none() && !named) {
            throw partOnly(cancel.getStart(), part.getStop());
        }
    }

    /** "Cancel Fulmar hold" leaves no fix out, and no hold is begun by it. */
    private void leftOut(InstructionContext before, InstructionContext part, Pause pause) throws ClearanceException {
        boolean way = part.direct() != null || part.join() != null || part.intercept() != null || part.onward() != null;
        if (pause.none() && !way) {
            throw partOnly(before.getStart(), part.getStop());
        }
    }

    private ClearanceException partOnly(Token first, Token end) {
        return source.refuse(
                first,
                end,
                ClearanceException.Code.NOT_UNDERSTOOD,
                "\"" + source.words(first, end)
                        + "\": one part of a clearance is not taken back by itself; say what holds in its place"
                        + " (\"maintain 8000\", \"then as filed\"), or \"disregard\" and a comma to take the whole back");
    }

    /** What is to be expected ends at a comma or a full stop; behind "then" it could be cleared, or expected too. */
    private void expected(ExpectContext expect, InstructionContext part, Pause pause) throws ClearanceException {
        boolean ends = (pause.comma() || pause.stop()) && (!pause.then() || part.onward() != null);
        if (!nothingToFly(part) && !ends) {
            throw source.notUnderstood(part, "after \"" + source.words(expect) + "\": " + CLEARED_OR_EXPECTED);
        }
    }

    /** "Expect lower in 10 miles direct FUL": behind a level, a place or a time a way is not told apart from a cleared one. */
    private void oneExpected(List<ExpectWordContext> words) throws ClearanceException {
        boolean said = false;
        for (ExpectWordContext word : words) {
            int type = word.getStart().getType();
            if (said && (type == ClearanceLanguageParser.DIRECT || type == ClearanceLanguageParser.VIA)) {
                Token end = words.get(words.size() - 1).getStop();
                throw source.refuse(
                        word.getStart(),
                        end,
                        ClearanceException.Code.NOT_UNDERSTOOD,
                        "\"" + source.words(word.getStart(), end) + "\": " + CLEARED_OR_EXPECTED);
            }
            said |= SAYS_WHEN.contains(type);
        }
    }

    /** "Report passing PRION, then direct FUL": "then" may be after the report, and may be only the next thing said. */
    private void reported(ReportContext report, InstructionContext part, Pause pause, List<Instruction> read)
            throws ClearanceException {
        boolean leads = read.stream().anyMatch(Clauses::leads);
        if (pause.then() && !nothingToFly(part) && part.onward() == null && !leads) {
            throw source.notUnderstood(
                    part,
                    "after the report, or now? to begin there it is \"after passing\" a fix, then that; for now leave"
                            + " \"then\" out");
        }
        if (!pause.stop()
                && !pause.then()
                && !pause.and()
                && part.level() != null
                && Heard.isGoingOn(part.getStart())) {
            throw source.notUnderstood(
                    part,
                    "is it cleared, or part of the report? if it is cleared, say \"climb and maintain\" or \"descend"
                            + " and maintain\"; if it is to be reported, leave the comma out");
        }
        if (pause.none()
                && (part.direct() != null
                        || part.getStart().getType() == ClearanceLanguageParser.VIA
                        || saysWhere(report))) {
            throw source.notUnderstood(
                    part,
                    "where \"" + source.words(report)
                            + "\" ends is not clear: put a comma or a full stop before what is cleared");
        }
    }

    private static boolean nothingToFly(InstructionContext part) {
        return part.expect() != null || part.report() != null || part.further() != null;
    }

    private static boolean leads(Instruction said) {
        return said instanceof Instruction.Onto
                || said instanceof Instruction.StationLine
                || said instanceof Instruction.Depart
                || said instanceof Instruction.ClearedTo;
    }

    private static boolean saysWhere(ReportContext report) {
        return Trees.getDescendants(report).stream()
                .anyMatch(word -> word instanceof TerminalNode node
                        && (node.getSymbol().getType() == ClearanceLanguageParser.AFTER
                                || node.getSymbol().getType() == ClearanceLanguageParser.BEFORE));
    }

    /**
     * Whether a place between two instructions is of the one before it: so where no comma parts it from that one. With no
     * comma on either side it cannot be told.
     *
     * @param said what stands right before it
     * @param leadsTo the fix that all before it leads to
     */
    boolean isOfWhatStandsBefore(
            AfterContext spoken,
            When when,
            Pause pause,
            Pause behind,
            List<Instruction> said,
            Optional<Waypoint> leadsTo)
            throws ClearanceException {
        if (said.isEmpty() || pause.stop() || pause.then()) {
            return false;
        }
        boolean limit = said.get(0) instanceof Instruction.Maintain || said.get(0) instanceof Instruction.Speed;
        boolean there = leadsTo.isPresent() && when.equals(new When.AtLine(new Instruction.Until.AtFix(leadsTo.get())));
        boolean onto = when instanceof When.Established && !limit;
        if ((there && !limit) || onto) {
            return false;
        }
        return isBefore(spoken, pause, behind);
    }

    /** "Contact center 127.9 at PRION", "... when ready": the same of what is only heard and stands right before it. */
    boolean isOfWhatIsHeard(InstructionContext part, Pause pause, Pause behind) throws ClearanceException {
        if (part.begin() != null) {
            return pause.none();
        }
        return part.after() != null && !pause.stop() && !pause.then() && isBefore(part.after(), pause, behind);
    }

    private boolean isBefore(AfterContext spoken, Pause pause, Pause behind) throws ClearanceException {
        boolean last = behind.equals(Pause.END) || behind.then();
        if (last) {
            return true;
        }
        if (pause.none() && behind.joins()) {
            throw unclear(spoken, "is what is said behind \"and\" begun there too?");
        }
        if (pause.none() && !behind.none()) {
            return true;
        }
        if (pause.none()) {
            throw ofWhich(spoken);
        }
        return false;
    }

    /** Whether commas, and nothing else, part a place from what stands before it and from what follows. */
    static boolean isParted(Pause pause, Pause behind) {
        return pause.comma() && !pause.stop() && !pause.then() && behind.comma();
    }

    /** "Descend and maintain 6000, after PRION, direct FUL": of either; of the second where both are of one kind. */
    void ofTheSecond(ParserRuleContext spoken, Instruction first, Instruction second) throws ClearanceException {
        boolean altitude = first instanceof Instruction.Maintain && !(second instanceof Instruction.Maintain);
        boolean speed = first instanceof Instruction.Speed && !(second instanceof Instruction.Speed);
        if (altitude || speed) {
            throw ofWhich(spoken);
        }
    }

    ClearanceException ofWhich(ParserRuleContext spoken) {
        return unclear(spoken, "of what stands before it, or of what follows?");
    }

    private ClearanceException unclear(ParserRuleContext spoken, String question) {
        return source.notUnderstood(
                spoken, question + " a comma behind it puts it to what stands before, one before it to what follows");
    }
}
