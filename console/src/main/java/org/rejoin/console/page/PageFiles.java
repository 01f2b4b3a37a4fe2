package org.rejoin.console.page;

import java.io.IOException;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/** The fixed files of the page, read once. Nothing else can be fetched: there is no path to walk. */
final class PageFiles {

    /** A file. Some are the instructor's alone; the microphone is given to pages that a pilot talks on. */
    record PageFile(String type, byte[] octets, boolean instructor, boolean microphone) {}

    private static final String HTML = "text/html; charset=utf-8";
    private static final String STYLE = "text/css; charset=utf-8";
    private static final String SCRIPT = "text/javascript; charset=utf-8";

    /** Asked for by every browser, under this name. */
    private static final String ICON = "/favicon.ico";

    private final Map<String, PageFile> files = new LinkedHashMap<>();

    /** Views of a practice room, each a page of its own, and whether it is the instructor's alone. */
    private static final Map<String, Boolean> VIEWS = Map.of(
            "live", true,
            "map", false,
            "seat", true,
            "own", false,
            "prepare", true,
            "debrief", false,
            "book", false,
            "progress", false,
            "drill", false,
            "parts", true);

    /** The scripts of the room's pages alone. */
    private static final List<String> ROOM_MODULES =
            List.of(("home live map room-map own seat prepare debrief book progress drill paper parts pieces plot "
                            + "compare whatif sign answers")
                    .split(" ", -1));

    /** The scripts of every page. */
    private static final List<String> MODULES =
            List.of(("main enter model surface view sheet ground other plan strips panels theme preact radio voice "
                            + "talk talk-worklet readback radio-panel student marks")
                    .split(" ", -1));

    /** Pages on which a pilot reads a clearance back aloud. */
    private static final Set<String> TALKED_ON = Set.of("/own", "/drill", "/student");

    PageFiles(boolean room) throws IOException {
        if (room) {
            add("/", "home.html", HTML, true);
            for (Map.Entry<String, Boolean> view : VIEWS.entrySet()) {
                add("/" + view.getKey(), view.getKey() + ".html", HTML, view.getValue());
            }
            for (String module : ROOM_MODULES) {
                add("/" + module + ".js", module + ".js", SCRIPT, false);
            }
            add("/qrcode.js", "qrcode.js", SCRIPT, false);
            add("/guide.js", "guide.js", SCRIPT, false);
            add("/uplot.js", "uplot.js", SCRIPT, false);
            add("/uplot.css", "uplot.css", STYLE, false);
        } else {
            add("/guide.js", "guide-alone.js", SCRIPT, false);
            add("/", "instructor.html", HTML, true);
            add("/student", "student.html", HTML, false);
        }
        add("/enter", room ? "join.html" : "enter.html", HTML, false);
        for (String style : new String[] {"page.css", "room.css", "guide.css"}) {
            add("/" + style, style, STYLE, false);
        }
        add(ICON, "icon.svg", "image/svg+xml", false);
        add("/guide", "guide.html", HTML, false);
        for (String picture : new String[] {"prepare", "home", "seat", "debrief", "book"}) {
            add("/guide-" + picture + ".png", "guide-" + picture + ".png", "image/png", false);
        }
        for (String module : MODULES) {
            add("/" + module + ".js", module + ".js", SCRIPT, false);
        }
        add("/desk.js", "desk.js", SCRIPT, true);
    }

    private void add(String path, String name, String type, boolean instructor) throws IOException {
        try (InputStream in = PageFiles.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException("page/" + name + " is missing from the program");
            }
            files.put(path, new PageFile(type, in.readAllBytes(), instructor, TALKED_ON.contains(path)));
        }
    }

    Optional<PageFile> at(String path) {
        return Optional.ofNullable(files.get(path));
    }

    /** What is given without a token: enough to ask for one. */
    static boolean beforeEntry(String path) {
        return path.equals("/enter")
                || path.equals("/enter.js")
                || path.equals("/page.css")
                || path.equals("/theme.js")
                || path.equals(ICON);
    }
}
