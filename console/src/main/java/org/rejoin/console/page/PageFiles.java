package org.rejoin.console.page;

import java.io.IOException;
import java.io.InputStream;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;

/** The fixed files of the page, read once. Nothing else can be fetched: there is no path to walk. */
final class PageFiles {

    /**
     * A file.
     *
     * @param type media type
     * @param octets content
     * @param instructor whether only the instructor is given it
     */
    record PageFile(String type, byte[] octets, boolean instructor) {}

    private static final String SCRIPT = "text/javascript; charset=utf-8";

    private final Map<String, PageFile> files = new LinkedHashMap<>();

    PageFiles() throws IOException {
        add("/", "instructor.html", "text/html; charset=utf-8", true);
        add("/student", "student.html", "text/html; charset=utf-8", false);
        add("/enter", "enter.html", "text/html; charset=utf-8", false);
        add("/page.css", "page.css", "text/css; charset=utf-8", false);
        for (String module : new String[] {
            "main", "enter", "model", "surface", "view", "sheet", "ground", "plan", "strips", "panels", "theme"
        }) {
            add("/" + module + ".js", module + ".js", SCRIPT, false);
        }
        add("/desk.js", "desk.js", SCRIPT, true);
    }

    private void add(String path, String name, String type, boolean instructor) throws IOException {
        try (InputStream in = PageFiles.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException("page/" + name + " is missing from the program");
            }
            files.put(path, new PageFile(type, in.readAllBytes(), instructor));
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
                || path.equals("/theme.js");
    }
}
