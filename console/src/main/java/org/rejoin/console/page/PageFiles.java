package org.rejoin.console.page;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** The fixed files of the page, read once. Nothing else can be fetched: there is no path to walk. */
final class PageFiles {

    /** A file. Some are the instructor's alone; the microphone is given to pages that a pilot talks on. */
    record PageFile(String type, byte[] octets, boolean instructor, boolean microphone) {}

    private static final String HTML = "text/html; charset=utf-8";
    private static final String STYLE = "text/css; charset=utf-8";
    private static final String SCRIPT = "text/javascript; charset=utf-8";

    /** Asked for by every browser, under this name. */
    private static final String ICON = "/favicon.ico";

    /** Of others, on the class path; the version is the one in pom.xml. */
    private static final String UPLOT = "/META-INF/resources/webjars/uplot/1.6.30/dist/";

    private final Map<String, PageFile> files = new LinkedHashMap<>();

    /** A view of a practice room, a page of its own; the instructor's alone or not, with plots or without. */
    private record View(String name, String title, boolean instructor, boolean plots) {}

    private static final List<View> VIEWS = List.of(
            new View("home", "Practice room", true, false),
            new View("live", "All seats", true, false),
            new View("map", "Map of the room", false, false),
            new View("seat", "One seat", true, false),
            new View("own", "My seat", false, false),
            new View("prepare", "Prepare a lesson", true, false),
            new View("debrief", "Debrief", false, true),
            new View("book", "Record book", false, false),
            new View("progress", "Progress", false, true),
            new View("drill", "Drill", false, true),
            new View("parts", "Parts of the page", true, true));

    /** Of a template: what stays where a value of that name is given. */
    private static final Pattern PART = Pattern.compile("(?s)<!-- if (\\w+) -->\n?(.*?)<!-- end -->\n?");

    /** The scripts of the room's pages alone. */
    private static final String ROOM_MODULES =
            "home code live map room-map own seat prepare debrief book progress drill"
                    + " paper parts plot compare whatif answers guide";

    /** The scripts of every page. */
    private static final String MODULES =
            "main flight enter dom server model pieces surface view sheet ground other plan"
                    + " strips panels theme preact radio voice talk talk-worklet readback radio-panel marks student";

    /** Pages on which a pilot reads a clearance back aloud. */
    private static final Set<String> TALKED_ON = Set.of("/own", "/drill", "/student");

    PageFiles(boolean room) throws IOException {
        if (room) {
            for (View view : VIEWS) {
                Map<String, String> values = new HashMap<>(Map.of("name", view.name(), "title", view.title()));
                if (view.plots()) {
                    values.put("plots", "");
                }
                addPage(view.name().equals("home") ? "/" : "/" + view.name(), "view.html", values, view.instructor());
            }
            addPage("/enter", "enter.html", Map.of("title", "Join the practice room", "room", ""), false);
            addScripts(ROOM_MODULES);
            add("/uplot.js", UPLOT + "uPlot.esm.js", SCRIPT);
            add("/uplot.css", UPLOT + "uPlot.min.css", STYLE);
        } else {
            Map<String, String> instructors =
                    Map.of("who", "Instructor", "stream", "/stream", "script", "desk", "instructor", "");
            Map<String, String> students = Map.of("who", "Pilot", "stream", "/stream/student", "script", "student");
            addPage("/", "flight.html", instructors, true);
            addPage("/student", "flight.html", students, false);
            addPage("/enter", "enter.html", Map.of("title", "Token needed", "flight", ""), false);
            add("/guide.js", "guide-alone.js", SCRIPT);
        }
        addScripts(MODULES);
        put("/desk.js", SCRIPT, octets("desk.js"), true);
        for (String style : List.of("page.css", "room.css", "guide.css")) {
            add("/" + style, style, STYLE);
        }
        add(ICON, "icon.svg", "image/svg+xml");
        add("/guide", "guide.html", HTML);
        for (String picture : List.of("prepare", "home", "seat", "debrief", "book")) {
            add("/guide-" + picture + ".png", "guide-" + picture + ".png", "image/png");
        }
    }

    private void addScripts(String names) throws IOException {
        for (String name : names.split(" ", -1)) {
            add("/" + name + ".js", name + ".js", SCRIPT);
        }
    }

    private void add(String path, String name, String type) throws IOException {
        put(path, type, octets(name), false);
    }

    private void addPage(String path, String template, Map<String, String> values, boolean instructor)
            throws IOException {
        String page = PART.matcher(new String(octets(template), StandardCharsets.UTF_8))
                .replaceAll(part -> values.containsKey(part.group(1)) ? Matcher.quoteReplacement(part.group(2)) : "");
        for (Map.Entry<String, String> value : values.entrySet()) {
            page = page.replace("{{" + value.getKey() + "}}", value.getValue());
        }
        put(path, HTML, page.getBytes(StandardCharsets.UTF_8), instructor);
    }

    private void put(String path, String type, byte[] octets, boolean instructor) {
        files.put(path, new PageFile(type, octets, instructor, TALKED_ON.contains(path)));
    }

    private static byte[] octets(String name) throws IOException {
        try (InputStream in = PageFiles.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException(name + " of the page is missing from the program");
            }
            return in.readAllBytes();
        }
    }

    Optional<PageFile> at(String path) {
        return Optional.ofNullable(files.get(path));
    }

    /** What is given without a token: enough to ask for one. */
    static boolean beforeEntry(String path) {
        return Set.of("/enter", "/enter.js", "/page.css", "/theme.js", ICON).contains(path);
    }
}
