package org.rejoin.console.brief;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** Finds room for labels: of the places around what is named, the one that covers least. */
final class Labels {

    /** Width of a character, parts of the size of the type; generous, for any sans serif. */
    private static final double CHARACTER = 0.60;

    private static final double LINE = 1.25;
    private static final double FORBIDDEN = 1e6;

    private final Sketch.Frame frame;
    private final List<Sketch.Frame> taken = new ArrayList<>();
    private final List<Sketch.Spot> inked = new ArrayList<>();

    Labels(Sketch.Frame frame) {
        this.frame = frame;
    }

    /** Keeps the place of a symbol free. */
    void symbol(Sketch.Spot at, double radius) {
        taken.add(new Sketch.Frame(at.x() - radius, at.y() - radius, 2 * radius, 2 * radius));
    }

    /** Keeps labels off a line where they can be. */
    void line(List<Sketch.Spot> spots) {
        for (int i = 1; i < spots.size(); i++) {
            Sketch.Spot a = spots.get(i - 1);
            Sketch.Spot b = spots.get(i);
            double length = Math.hypot(b.x() - a.x(), b.y() - a.y());
            int pieces = (int) Math.min(400, Math.ceil(length / 4) + 1);
            for (int j = 0; j < pieces; j++) {
                double part = (double) j / pieces;
                inked.add(new Sketch.Spot(a.x() + (b.x() - a.x()) * part, a.y() + (b.y() - a.y()) * part));
            }
        }
    }

    /** The place of a label beside a symbol; its box, or nothing where all places are taken. */
    Optional<Sketch.Frame> beside(Sketch.Spot at, double gap, List<String> lines, double size) {
        List<Sketch.Spot> anchors = new ArrayList<>();
        for (double far : new double[] {gap, gap * 2, gap * 3.5}) {
            for (int i = 0; i < 16; i++) {
                double angle = Math.toRadians(45 + 22.5 * i);
                anchors.add(new Sketch.Spot(at.x() + far * Math.sin(angle), at.y() - far * Math.cos(angle)));
            }
        }
        return best(at, anchors, lines, size);
    }

    /** The place of a label beside a line. */
    Optional<Sketch.Frame> along(List<Sketch.Spot> spots, double gap, List<String> lines, double size) {
        Optional<Sketch.Frame> best = Optional.empty();
        double least = FORBIDDEN;
        for (int part : new int[] {12, 9, 15, 7, 17, 5, 19}) {
            Sketch.Spot at = spots.get(Math.min(part * spots.size() / 25, spots.size() - 1));
            if (!frame.contains(at)) {
                continue;
            }
            List<Sketch.Spot> anchors = new ArrayList<>();
            for (int i = 0; i < 32; i++) {
                double angle = Math.toRadians(22.5 * i);
                double far = i < 16 ? gap : 2 * gap;
                anchors.add(new Sketch.Spot(at.x() + far * Math.sin(angle), at.y() - far * Math.cos(angle)));
            }
            for (Sketch.Spot anchor : anchors) {
                Sketch.Frame box = box(at, anchor, lines, size);
                double cost = cost(box);
                if (cost < least) {
                    least = cost;
                    best = Optional.of(box);
                }
            }
        }
        best.ifPresent(taken::add);
        return best;
    }

    private Optional<Sketch.Frame> best(Sketch.Spot at, List<Sketch.Spot> anchors, List<String> lines, double size) {
        Sketch.Frame best = null;
        double least = FORBIDDEN;
        int order = 0;
        for (Sketch.Spot anchor : anchors) {
            Sketch.Frame box = box(at, anchor, lines, size);
            double cost = cost(box) + 0.15 * order++;
            if (cost < least) {
                least = cost;
                best = box;
            }
        }
        if (best != null) {
            taken.add(best);
        }
        return Optional.ofNullable(best);
    }

    private static Sketch.Frame box(Sketch.Spot at, Sketch.Spot anchor, List<String> lines, double size) {
        double width = lines.stream().mapToInt(String::length).max().orElse(1) * size * CHARACTER + 6;
        double height = lines.size() * size * LINE + 4;
        // The box grows away from what it names.
        double across = Math.max(-1, Math.min(1, (anchor.x() - at.x()) / 6));
        double down = Math.max(-1, Math.min(1, (anchor.y() - at.y()) / 6));
        return new Sketch.Frame(
                anchor.x() - width / 2 + across * width / 2,
                anchor.y() - height / 2 + down * height / 2,
                width,
                height);
    }

    private double cost(Sketch.Frame box) {
        double cost = frame.holds(box) ? 0 : FORBIDDEN;
        for (Sketch.Frame other : taken) {
            cost += other.overlap(box) > 0 ? FORBIDDEN : 0;
        }
        for (Sketch.Spot spot : inked) {
            cost += box.contains(spot) ? 1 : 0;
        }
        return cost;
    }
}
