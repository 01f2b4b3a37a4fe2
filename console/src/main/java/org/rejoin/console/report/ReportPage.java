package org.rejoin.console.report;

import java.time.ZoneOffset;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.grade.GradeCard;
import org.rejoin.console.recording.InstructorFile;
import org.rejoin.console.words.Words;

/** The debrief as one HTML page that needs nothing but itself. */
final class ReportPage {

    private static final DateTimeFormatter RECORDED = DateTimeFormatter.ofPattern(
                    "yyyy-MM-dd HH:mm:ss 'UTC'", Locale.ROOT)
            .withZone(ZoneOffset.UTC);

    private final Markup out = new Markup();
    private final DebriefedFlight flight;
    private final Report.Heading heading;
    private final Grade grade;
    private final List<NumberedEvent> events;
    private final List<Entry.Issued> amendments;

    ReportPage(DebriefedFlight flight, Report.Heading heading) {
        this.flight = flight;
        this.heading = heading;
        this.grade = flight.debrief().grade();
        this.events = NumberedEvent.of(flight.debrief().events(), grade.faults(), flight::line);
        this.amendments = flight.record().issued();
    }

    /** HTML; the same flight gives the same text. */
    String html() {
        PageResources resources = PageResources.read();
        out.documentType();
        out.start("html", "lang", "en").start("head");
        out.empty("meta", "charset", "utf-8").text("\n");
        String running = PageResources.running(
                (heading.pilot().isEmpty() ? "" : heading.pilot() + ": ")
                        + flight.lesson().title() + ", "
                        + RECORDED.format(flight.debrief().began()),
                Words.CAUTION);
        out.empty("meta", "http-equiv", "Content-Security-Policy", "content", resources.policy(running))
                .text("\n");
        out.empty("meta", "name", "viewport", "content", "width=device-width, initial-scale=1")
                .text("\n");
        out.element("title", "Debrief: " + flight.lesson().title()).text("\n");
        out.own("style", resources.style());
        out.own("style", running);
        out.endLine().start("body");
        List<PlanView> plans = plans();
        head();
        for (int i = 0; i < plans.size(); i++) {
            clearance(plans, i);
        }
        for (CloseUp closeUp : CloseUp.of(flight, events)) {
            section(closeUp.id() + "-title", closeUp.title());
            closeUp.write(out, flight, events);
            out.endLine();
        }
        ReadbackTable readbacks = new ReadbackTable(out, flight.debrief().said());
        if (!readbacks.isEmpty()) {
            section("readbacks-title", "Readbacks");
            readbacks.write();
            out.endLine();
        }
        replay();
        section("strips-title", "The flight against time");
        new Strips(out, flight).write(events);
        out.endLine();
        log();
        out.endLine();
        card();
        ending();
        out.own("script", new ReplayData(flight, plans).json(), "type", "application/json", "id", "flight-data");
        out.own("script", resources.script());
        out.end().endLine();
        return out.document();
    }

    private void head() {
        out.start("header");
        out.element("p", Words.CAUTION, "class", "caution");
        out.element("h1", "Debrief: " + flight.lesson().title());
        whose();
        for (Entry.Issued amended : amendments) {
            paragraph(
                    amended.equals(amendments.get(0))
                            ? "The job: "
                            : amended.asBefore() ? "As cleared before: " : "Then: ",
                    ClearanceSheet.job(amended.route())
                            + takenBack(amended)
                                    .map(said -> " Taken back at " + said + ".")
                                    .orElse(""),
                    "class",
                    "job");
        }
        out.start("p", "class", "result");
        out.element("strong", "Result: " + GradeCard.result(grade.score(), grade.verdict(), grade.notJudged()));
        if (!grade.faults().isEmpty()) {
            out.text("; " + (grade.faults().size() == 1 ? "one fault: " : "faults: ")
                    + String.join(
                            ", ",
                            grade.faults().stream()
                                    .map(fault -> GradeSheet.words(fault.code()) + " at " + Words.clock(fault.atS()))
                                    .toList()));
        }
        out.end();
        paragraph("Filed: ", flight.lesson().filed().text());
        out.element(
                "p",
                "Recorded " + RECORDED.format(flight.debrief().began()) + ". Magnetic variation of "
                        + flight.debrief().date() + ". Chart: "
                        + flight.lesson().chart().name() + ".");
        out.endLine();
    }

    private Optional<String> takenBack(Entry.Issued amended) {
        return flight.record()
                .takenBack(amended)
                .map(back -> Words.clock(back.timeS()) + (back.asFiled() ? ": as filed" : ": as cleared before"));
    }

    private void whose() {
        if (!heading.pilot().isEmpty()) {
            paragraph("Pilot: ", heading.pilot(), "class", "result");
        }
        heading.practicePilot().ifPresent(habit -> out.element("p", Words.flownByPractice(habit), "class", "result"));
        if (!heading.instructor().isEmpty()) {
            paragraph("Instructor: ", heading.instructor());
        }
        if (!heading.attempt().isEmpty()) {
            paragraph("Attempt: ", heading.attempt());
        }
    }

    /** Who vouches for it; a line to sign on where nobody has. */
    private void signed() {
        heading.mark()
                .ifPresent(mark -> paragraph(
                        "The instructor's own mark: ",
                        Words.say("%.1f of 100", mark.score()) + (mark.by().isEmpty() ? "" : ", " + mark.by()) + ": "
                                + mark.reason()));
        for (Report.Heading.Signed each : heading.signed()) {
            paragraph(
                    "Signed: ",
                    each.name() + (each.certificate().isEmpty() ? "" : ", certificate " + each.certificate()) + ", "
                            + RECORDED.format(each.at()) + (each.remark().isEmpty() ? "" : ": " + each.remark())
                            + (each.matches() ? "." : ". \u25b2 Recording or grade were changed after this signature."),
                    "class",
                    "signed");
        }
    }

    private void clearance(List<PlanView> plans, int index) {
        if (index < amendments.size()) {
            section(
                    "clearance-" + (index + 1),
                    amendments.size() == 1 ? "The clearance" : "Clearance " + (index + 1) + " of " + amendments.size());
            Entry.Issued amended = amendments.get(index);
            new ClearanceSheet(out, amended, amended.route(), takenBack(amended)).write();
            out.endLine();
        }
        if (index == 0) {
            // The slider stays in sight as long as this is.
            out.start("div", "class", "flown");
        }
        section("plan-title-" + index, "Seen from above");
        plans.get(index).write(out, under(index));
        if (index == 0) {
            PlanView.legend(out);
        }
        out.endLine();
    }

    /** One for each clearance; one at least. */
    private List<PlanView> plans() {
        List<PlanView> plans = new ArrayList<>();
        for (int i = 0; i < Math.max(1, amendments.size()); i++) {
            double from = fromS(i);
            double to = toS(i);
            List<Point> under = flight.samples().stream()
                    .filter(sample -> sample.timeS() >= from && sample.timeS() <= to)
                    .toList();
            plans.add(new PlanView(
                    flight,
                    String.valueOf(i),
                    i < amendments.size() ? Optional.of(amendments.get(i).route()) : Optional.empty(),
                    under.isEmpty() ? flight.samples() : under,
                    false));
        }
        return plans;
    }

    private List<NumberedEvent> under(int index) {
        return events.stream()
                .filter(event ->
                        event.timeS() >= fromS(index) && (event.timeS() < toS(index) || index >= amendments.size() - 1))
                .toList();
    }

    private double fromS(int index) {
        return index == 0 ? Double.NEGATIVE_INFINITY : amendments.get(index).timeS();
    }

    private double toS(int index) {
        return index + 1 < amendments.size() ? amendments.get(index + 1).timeS() : Double.POSITIVE_INFINITY;
    }

    private void replay() {
        out.start("section", "id", "replay", "class", "replay", "aria-label", "Replay", "hidden", "");
        out.start("button", "type", "button", "id", "play").text("Play").end();
        out.element("label", "Time", "for", "time");
        out.empty("input", "type", "range", "id", "time", "min", "0", "max", "1", "step", "any", "value", "0");
        out.start("output", "id", "reading", "for", "time").end();
        out.element(
                "p", "Left and right arrow keys move by one second, page up and page down by ten.", "class", "hint");
        out.endLine();
    }

    private void log() {
        section("log", "What happened");
        out.start("table", "class", "log").tableHead(List.of("Event", "Time", "What happened"));
        out.start("tbody");
        for (NumberedEvent event : events) {
            String[] line = event.line().split(" {2}", 2);
            out.start("tr", "id", event.anchor(), "class", event.kind().style() + "-row");
            out.start("td").start("a", "href", "#plan-" + event.number());
            out.text(String.valueOf(event.number())).end();
            out.text(
                    event.kind() == NumberedEvent.Kind.FLIGHT
                            ? ""
                            : event.kind() == NumberedEvent.Kind.FAULT ? " \u25b2" : " \u25a0");
            out.end();
            out.element("td", line[0], "class", "figure");
            out.element("td", (event.kind() == NumberedEvent.Kind.FAULT ? "Fault: " : "") + line[1]);
            out.endLine();
        }
        out.end().end();
        out.endLine();
    }

    private void card() {
        section("grade", "The grade");
        out.element(
                "p",
                "Against \u201c" + flight.debrief().set().title() + "\u201d (" + grade.standard() + "): "
                        + GradeCard.result(grade.score(), grade.verdict(), grade.notJudged()) + ". Task: "
                        + grade.task() + ".");
        grade.feed().ifPresent(feed -> out.element("p", "Feed: " + feed.text() + ".", "class", "feed"));
        GradeSheet sheet = new GradeSheet(out, grade, events);
        sheet.card();
        out.element("h3", "Faults, and what to practise");
        sheet.faults();
        List<String> notes = Stream.concat(grade.notes().stream(), flight.debrief().notes().stream())
                .distinct()
                .toList();
        if (!notes.isEmpty()) {
            out.element("h3", "Notes");
            out.start("ul");
            notes.forEach(note -> out.element("li", note));
            out.end();
        }
        out.endLine();
    }

    /** Who signs, what his signature stands under, and the caution: on paper one piece, so that none of it is on a page alone. */
    private void ending() {
        out.start("div", "class", "ending");
        remarks();
        again();
        out.start("footer");
        out.element("p", Words.CAUTION, "class", "caution");
        out.element("p", Report.NOT_LOGGED);
        out.end().endLine();
    }

    private void remarks() {
        section("remarks", "Instructor");
        for (InstructorFile.Remark remark : flight.debrief().said().remarks()) {
            paragraph(Words.clock(remark.elapsedS()), " " + remark.text());
        }
        signed();
        if (heading.signed().isEmpty()) {
            out.start("div", "class", "sign");
            out.element("p", "Remark", "class", "line");
            for (String line : List.of("Pilot", "Instructor", "Date", "Signature")) {
                out.element("p", line, "class", "line short");
            }
            out.end();
        }
        out.endLine();
    }

    private void again() {
        section("again", "Work it out again");
        out.element(
                "p",
                "Every number on this page comes from the recorded datagrams, the lesson and the chart. The same files and"
                        + " the same version give the same page, byte for byte. RECORDING is the directory that holds"
                        + " flight.pcap.");
        DebriefedFlight.Origin origin = flight.origin();
        out.start("p")
                .element("code", "java -jar rejoin.jar " + origin.arguments())
                .end();
        out.start("dl", "class", "worked");
        out.entry("Version", origin.version());
        sum("flight.pcap", origin.captureSha256());
        sum("lesson", origin.lessonSha256());
        sum("chart", origin.chartSha256());
        out.end();
        out.endLine();
    }

    private void paragraph(String strong, String text, String... attributes) {
        out.start("p", attributes).element("strong", strong).text(text).end();
    }

    private void sum(String name, String sha256) {
        out.element("dt", name + ", SHA-256");
        out.start("dd").element("code", sha256).end();
    }

    private void section(String id, String title) {
        out.start("section", "aria-labelledby", id);
        out.element("h2", title, "id", id).text("\n");
    }
}
