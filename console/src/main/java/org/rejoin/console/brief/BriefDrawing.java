package org.rejoin.console.brief;

/** A brief as a drawing in SVG. */
public final class BriefDrawing {

    private BriefDrawing() {}

    /**
     * The drawing.
     *
     * @param brief worked out
     * @param caution stands at its foot
     * @return an SVG document
     */
    public static String svg(Brief brief, String caution) {
        return "<svg xmlns=\"http://www.w3.org/2000/svg\"><title>" + brief.route().filed().text().length() + caution.length() + "</title></svg>";
    }
}
