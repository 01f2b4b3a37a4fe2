package org.rejoin.console.brief;

import java.util.List;

import org.rejoin.console.words.Words;

/** The SVG text of a drawing, element by element. All text is escaped; there is no script and nothing is fetched. */
final class Paper {

    /** The colour-blind-safe set of M. Okabe and K. Ito (Color Universal Design, 2008). */
    static final String BLACK = "#000000";

    static final String BLUE = "#0072B2";
    static final String VERMILLION = "#D55E00";
    static final String GREEN = "#009E73";
    static final String PURPLE = "#CC79A7";

    private final StringBuilder text = new StringBuilder();

    Paper(int width, int height, String title) {
        add(
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 %d %d\" width=\"%d\" height=\"%d\""
                        + " font-family=\"Helvetica, Arial, 'DejaVu Sans', sans-serif\" role=\"img\">%n",
                width, height, width, height);
        add("<title>%s</title>%n", escaped(title));
        add("<rect width=\"%d\" height=\"%d\" fill=\"#ffffff\"/>%n", width, height);
    }

    private void add(String format, Object... values) {
        text.append(Words.say(format, values).replace("\r\n", "\n"));
    }

    void openClip(Sketch.Frame frame) {
        add(
                "<clipPath id=\"map\"><rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\"/></clipPath>%n"
                        + "<g clip-path=\"url(#map)\">%n",
                frame.x(), frame.y(), frame.width(), frame.height());
    }

    void close() {
        add("</g>%n");
    }

    void frame(Sketch.Frame frame) {
        add(
                "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"none\" stroke=\"#000000\"/>%n",
                frame.x(), frame.y(), frame.width(), frame.height());
    }

    void line(List<Sketch.Spot> spots, Stroke stroke) {
        StringBuilder points = new StringBuilder();
        spots.forEach(spot -> points.append(Words.say("%.1f,%.1f ", spot.x(), spot.y())));
        add(
                "<polyline points=\"%s\" fill=\"none\" stroke=\"%s\" stroke-width=\"%.1f\"%s%s/>%n",
                points.toString().trim(),
                stroke.colour(),
                stroke.width(),
                stroke.dashes().isEmpty() ? "" : " stroke-dasharray=\"" + stroke.dashes() + "\"",
                stroke.opacity() < 1 ? Words.say(" stroke-opacity=\"%.2f\"", stroke.opacity()) : "");
    }

    /**
     * How a line is drawn; the dashes tell it from the others without colour.
     *
     * @param colour of the set
     * @param width units of the drawing
     * @param dashes lengths of dash and gap; empty for a whole line
     * @param opacity (0, 1]
     */
    record Stroke(String colour, double width, String dashes, double opacity) {}

    void shape(Sketch.Spot at, double turnDeg, String path, String fill, String stroke) {
        add(
                "<path transform=\"translate(%.1f %.1f) rotate(%.1f)\" d=\"%s\" fill=\"%s\" stroke=\"%s\""
                        + " stroke-width=\"1.6\"/>%n",
                at.x(), at.y(), turnDeg, path, fill, stroke);
    }

    void label(Sketch.Frame box, List<String> lines, double size, boolean bold) {
        add(
                "<rect x=\"%.1f\" y=\"%.1f\" width=\"%.1f\" height=\"%.1f\" fill=\"#ffffff\" fill-opacity=\"0.85\"/>%n",
                box.x(), box.y(), box.width(), box.height());
        for (int i = 0; i < lines.size(); i++) {
            double middle = box.x() + box.width() / 2;
            text(middle, box.y() + 2 + size * (1 + 1.25 * i), lines.get(i), size, bold && i == 0, "middle");
        }
    }

    void text(double x, double y, String words, double size, boolean bold, String anchor) {
        add(
                "<text x=\"%.1f\" y=\"%.1f\" font-size=\"%.1f\"%s text-anchor=\"%s\">%s</text>%n",
                x, y, size, bold ? " font-weight=\"bold\"" : "", anchor, escaped(words));
    }

    String finished() {
        return text + "</svg>\n";
    }

    private static String escaped(String words) {
        StringBuilder safe = new StringBuilder();
        words.codePoints().forEach(c -> {
            switch (c) {
                case '&' -> safe.append("&amp;");
                case '<' -> safe.append("&lt;");
                case '>' -> safe.append("&gt;");
                case '"' -> safe.append("&quot;");
                default -> {
                    // XML 1.0 has no place for control characters and lone surrogates.
                    boolean allowed = c >= 0x20 && c != 0x7F && !(c >= 0xD800 && c <= 0xDFFF) && c < 0xFFFE;
                    safe.appendCodePoint(allowed || c > 0xFFFF ? c : ' ');
                }
            }
        });
        return safe.toString();
    }
}
