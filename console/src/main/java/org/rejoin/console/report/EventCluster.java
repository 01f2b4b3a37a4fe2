package org.rejoin.console.report;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.stream.Stream;

import org.rejoin.console.draw.LabelPlacer;
import org.rejoin.console.draw.Markup;
import org.rejoin.console.draw.Projection;
import org.rejoin.console.words.Words;

/**
 * Events that fall on one spot of a drawing, in order of time: one mark, and in a box a number for each that leads to
 * its line of the log.
 */
record EventCluster(Projection.Point at, LabelPlacer.Box box, List<NumberedEvent> events) {

    /** More numbers than these are written as first to last. */
    private static final int MOST_NUMBERS = 4;

    private static final int MOST_CLUSTERS = 200;
    private static final double DIGIT = 12;

    private static final double GAP = 7;

    static List<EventCluster> of(
            List<NumberedEvent> events, Function<NumberedEvent, Projection.Point> where, double within) {
        List<EventCluster> clusters = new ArrayList<>();
        for (NumberedEvent event : events) {
            Projection.Point here = where.apply(event);
            int last = clusters.size() - 1;
            if (last < 0 || here.distance(clusters.get(last).at) > within) {
                clusters.add(new EventCluster(here, new LabelPlacer.Box(0, 0, 0, 0), new ArrayList<>()));
                last++;
            }
            clusters.get(last).events.add(event);
        }
        return clusters;
    }

    /** Marks on a plan, few enough to be told apart, each with room for its numbers. */
    static List<EventCluster> placed(
            List<NumberedEvent> events, Function<NumberedEvent, Projection.Point> where, LabelPlacer room) {
        double within = 9;
        List<EventCluster> all = of(events, where, within);
        while (all.size() > MOST_CLUSTERS && within < 2500) {
            within *= 2;
            all = of(events, where, within);
        }
        all.forEach(cluster -> room.keepFree(LabelPlacer.Box.around(cluster.at(), 6)));
        return all.stream()
                .map(cluster -> cluster.in(room.place(cluster.at(), cluster.width(), 20)))
                .toList();
    }

    EventCluster in(LabelPlacer.Box room) {
        return new EventCluster(at, room, events);
    }

    NumberedEvent.Kind kind() {
        return events.stream()
                .map(NumberedEvent::kind)
                .filter(kind -> kind != NumberedEvent.Kind.FLIGHT)
                .findFirst()
                .orElse(NumberedEvent.Kind.FLIGHT);
    }

    double width() {
        if (events.size() > MOST_NUMBERS) {
            return DIGIT * (digits(0) + digits(events.size() - 1) + 1) + 8;
        }
        double width = 0;
        for (int i = 0; i < events.size(); i++) {
            width += DIGIT * digits(i) + (i > 0 ? GAP : 0);
        }
        return width + 8;
    }

    private int digits(int index) {
        return String.valueOf(events.get(index).number()).length();
    }

    void write(Markup out, String anchor) {
        mark(out, kind(), at);
        double x = box.left() + 4;
        if (events.size() > MOST_NUMBERS) {
            String range = events.get(0).number() + "\u2013"
                    + events.get(events.size() - 1).number();
            for (NumberedEvent event : events) {
                out.start("g", "id", anchor + event.number()).end();
            }
            number(out, events.get(0), range, x);
            return;
        }
        for (int i = 0; i < events.size(); i++) {
            String number = String.valueOf(events.get(i).number());
            number(out, events.get(i), number, x, "id", anchor + number);
            x += DIGIT * digits(i) + GAP;
        }
    }

    private void number(Markup out, NumberedEvent event, String text, double x, String... more) {
        out.start(
                "a",
                Stream.concat(Stream.of("href", "#" + event.anchor()), Stream.of(more))
                        .toArray(String[]::new));
        out.start("text", "class", "number", "x", Markup.xy(x), "y", Markup.xy(box.top() + 16));
        out.element("title", event.line());
        out.text(text).end().end();
    }

    /** The shape says the kind; the colour only repeats it. */
    static void mark(Markup out, NumberedEvent.Kind kind, Projection.Point at) {
        String style = kind.style();
        switch (kind) {
            case FLIGHT ->
                out.empty("circle", "class", style, "cx", Markup.xy(at.x()), "cy", Markup.xy(at.y()), "r", "5");
            case FAULT ->
                out.empty(
                        "path",
                        "class",
                        style,
                        "d",
                        Words.say("M%s,%s l10,18 h-20 Z", Markup.xy(at.x()), Markup.xy(at.y() - 11)));
            case FEED -> out.box(style, at.x() - 5, at.y() - 5, 10, 10);
        }
    }
}
