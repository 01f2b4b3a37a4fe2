import java.io.IOException;
import java.io.InputStream;
import java.net.DatagramPacket;
import java.net.DatagramSocket;
import java.net.InetAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermission;
import java.security.MessageDigest;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Checks what was packed, as a user would have it: unpacked in a folder with a blank and a letter that is not English,
 * without any Java on the path. Run by the build's profile "image": CheckProgram TARGET ROOT. Ends with 1 if one check
 * fails.
 */
public final class CheckProgram {

    private static final int SECONDS = 120;
    private static final String CAUTION = "For simulation and training only.";

    private final Path target;
    private final Path root;
    private final boolean windows = System.getProperty("os.name").toLowerCase(Locale.ROOT).contains("windows");
    private final Path work;
    private final Path cache;
    private final Path plain;
    private final List<String> failed = new ArrayList<>();
    private Path program = Path.of("");

    private record Ended(int code, byte[] out, String err) {
        String text() {
            return new String(out, StandardCharsets.UTF_8);
        }
    }

    private interface Check {
        String wrong() throws Exception;
    }

    private CheckProgram(Path target, Path root) throws IOException {
        this.target = target;
        this.root = root;
        this.work = Files.createTempDirectory("rejoin \u00fc ");
        this.cache = Files.createDirectory(work.resolve("cache"));
        this.plain = Files.createTempDirectory("rejoin-plain");
    }

    public static void main(String[] args) throws Exception {
        CheckProgram check = new CheckProgram(Path.of(args[0]).toAbsolutePath(), Path.of(args[1]).toAbsolutePath());
        try {
            check.run();
        } finally {
            check.delete(check.work);
            check.delete(check.plain);
        }
        if (!check.failed.isEmpty()) {
            System.err.println("packed program: " + check.failed.size() + " checks failed:");
            check.failed.forEach(line -> System.err.println("  " + line));
            System.exit(1);
        }
    }

    private void run() throws Exception {
        Path zip = Path.of(Files.readString(target.resolve("image/packed.txt")).strip());
        program = unpack(zip, work.resolve("first"));
        Path chart = root.resolve("console/src/main/resources/org/rejoin/console/lesson/open-ocean.yaml");

        check("the zip has the checksum beside it", () -> {
            String said = Files.readString(target.resolve(zip.getFileName() + ".sha256")).split(" ")[0];
            return said.equals(sha256(zip)) ? "" : "it has another";
        });
        check("each file has its checksum", this::sums);
        check("licences of the runtime and of the libraries, and a bill that names the runtime", () -> {
            String bill = Files.readString(program.resolve("bill-of-materials.json"));
            return Files.isDirectory(program.resolve("runtime/legal/java.base"))
                            && Files.isRegularFile(program.resolve("licences/THIRD-PARTY.txt"))
                            && bill.contains("netty")
                            && bill.contains("runtime linked of")
                    ? ""
                    : "something is missing";
        });
        check("the guide with its pictures and looks", () -> {
            Path guide = program.resolve("guide");
            String text = Files.readString(guide.resolve("guide.html"));
            List<String> missing = new ArrayList<>();
            Matcher named = Pattern.compile("(?:src|href)=\"([a-z-]+\\.(?:png|css))\"").matcher(text);
            int found = 0;
            while (named.find()) {
                found++;
                if (!Files.isRegularFile(guide.resolve(named.group(1)))) {
                    missing.add(named.group(1));
                }
            }
            return missing.isEmpty() && found >= 8 ? "" : found + " named, missing " + missing;
        });
        check("each page of the docs that another one names is there", this::docs);
        check("it starts without any Java on the path, and says its version", () -> {
            Ended ended = start(Map.of(), "--version");
            return ended.code == 0 && ended.text().startsWith("Rejoin ") && ended.err.isEmpty() ? "" : said(ended);
        });
        check("it starts under the locale C", () -> {
            Ended ended = start(Map.of("LC_ALL", "C"), "fly", "--hz", "1");
            return ended.code == 0 && ended.text().contains("SCORE") ? "" : said(ended);
        });
        check("it starts without a home folder", () -> {
            Map<String, String> none = new HashMap<>();
            none.put("HOME", null);
            none.put("XDG_CACHE_HOME", null);
            none.put("LOCALAPPDATA", null);
            Ended ended = start(none, "chart", chart.toString());
            return ended.code == 0 && ended.text().contains(CAUTION) ? "" : said(ended);
        });
        check("a user's own options of the virtual machine leave standard output alone", () -> {
            Ended ended = start(Map.of("JAVA_TOOL_OPTIONS", "-Xmx512m"), "fly", "--hz", "1", "--json");
            return ended.code == 0 && ended.text().startsWith("{") ? "" : said(ended);
        });
        check("fly gives the same bytes as java -jar", () -> {
            Ended packed = start(Map.of(), "fly", "--json");
            Ended plain = run(List.of(javaHome(), "-jar", target.resolve("rejoin.jar").toString(), "fly", "--json"), Map.of());
            return packed.code == 0 && Arrays.equals(packed.out, plain.out) ? "" : "they differ: " + said(packed);
        });
        check("bad usage ends with 2 and one line", () -> {
            Ended ended = start(Map.of(), "brief", "--at", "x");
            return ended.code == 2 && ended.out.length == 0 && ended.err.lines().count() == 1 ? "" : said(ended);
        });
        check("brief works a clearance out", () -> {
            Ended ended = start(
                    Map.of(), "brief", "--json", "--chart", chart.toString(), "--filed", "XSKU DCT SKU V40 FUL DCT XFUL",
                    "--at", "38.20,-49.92", "--altitude", "6000", "--speed", "140", "--wind", "270/15", "--clearance",
                    "fly heading 110, intercept the PTL 066 radial, join V40, then as filed");
            return ended.code == 0 && ended.text().contains("PTL066") ? "" : said(ended);
        });
        check("a flight is recorded, debriefed and exported", this::recorded);
        check("feed watch and feed check hear and read", this::feeds);
        check("listen says within its time that nothing came", () -> {
            Ended ended = start(Map.of(), "feed", "watch", "--port", "0", "--seconds", "1");
            return ended.code == 0 && ended.text().contains("nothing has arrived") ? "" : said(ended);
        });
        check("a folder that may not be written", this::readOnly);
        check("two copies at once", this::twoAtOnce);
        check("the archive of classes is made once, silently, and serves", this::archive);
    }

    private String sums() throws Exception {
        List<String> wrong = new ArrayList<>();
        List<String> lines = Files.readAllLines(program.resolve("SHA256SUMS"));
        for (String line : lines) {
            Path file = program.resolve(line.substring(66));
            if (!Files.isRegularFile(file) || !sha256(file).equals(line.substring(0, 64))) {
                wrong.add(line.substring(66));
            }
        }
        return wrong.isEmpty() && lines.size() > 50 ? "" : String.join(", ", wrong);
    }

    private String docs() throws IOException {
        List<String> missing = new ArrayList<>();
        int found = 0;
        try (Stream<Path> pages = Files.list(program.resolve("docs"))) {
            for (Path page : pages.sorted().toList()) {
                Matcher link = Pattern.compile("\\]\\(([^)#:]+)[^)]*\\)").matcher(Files.readString(page));
                while (link.find()) {
                    found++;
                    if (!Files.isRegularFile(page.resolveSibling(link.group(1)))) {
                        missing.add(page.getFileName() + " names " + link.group(1));
                    }
                }
            }
        }
        boolean told = Files.isRegularFile(program.resolve("docs/files.md"))
                && Files.isRegularFile(program.resolve("docs/wire-formats.md"));
        return missing.isEmpty() && found > 5 && told ? "" : found + " links, missing " + missing;
    }

    private String recorded() throws Exception {
        Path out = work.resolve("a flight");
        Ended fly = start(Map.of(), "fly", "--out", out.toString(), "--hz", "2");
        Ended debrief = start(Map.of(), "debrief", out.toString(), "--out", work.resolve("report").toString());
        boolean files = Stream.of("report.html", "track.gpx", "track.kml", "track.geojson", "samples.csv")
                .allMatch(name -> Files.exists(work.resolve("report").resolve(name)));
        return fly.code == 0 && debrief.code == 0 && files ? "" : said(fly) + said(debrief);
    }

    private String feeds() throws Exception {
        int port;
        try (DatagramSocket free = new DatagramSocket(0, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        Process watch = process(
                command("feed", "watch", "--port", String.valueOf(port), "--seconds", "3", "--json"), Map.of()).start();
        byte[] json = "{\"time_s\": 1, \"latitude_deg\": 38.2, \"longitude_deg\": -49.9}".getBytes(StandardCharsets.UTF_8);
        try (DatagramSocket socket = new DatagramSocket()) {
            while (watch.isAlive()) { // a busy machine takes its time until it listens
                socket.send(new DatagramPacket(json, json.length, InetAddress.getLoopbackAddress(), port));
                Thread.sleep(100);
            }
        }
        Ended ended = ended(watch);
        return ended.code == 0 && ended.text().contains("\"format\":\"json\"") ? "" : said(ended);
    }

    private String readOnly() throws Exception {
        if (windows) {
            program.resolve("rejoin.jar").toFile().setReadOnly();
        } else {
            for (Path folder : List.of(program, program.resolve("runtime"), program.resolve("runtime/lib"))) {
                folder.toFile().setWritable(false);
            }
        }
        Ended ended = start(Map.of(), "fly", "--hz", "1");
        return ended.code == 0 ? "" : said(ended);
    }

    private String twoAtOnce() throws Exception {
        Map<String, String> fresh = Map.of(
                "XDG_CACHE_HOME", work.resolve("two").toString(), "LOCALAPPDATA", work.resolve("two").toString());
        Files.createDirectories(work.resolve("two"));
        Process one = process(command("fly", "--json"), fresh).start();
        Process other = process(command("fly", "--json"), fresh).start();
        Ended first = ended(one);
        Ended second = ended(other);
        awaitArchive(work.resolve("two"));
        return first.code == 0 && second.code == 0 && Arrays.equals(first.out, second.out)
                ? ""
                : said(first) + said(second);
    }

    private String archive() throws Exception {
        // JDK 17 takes no class of a program from an archive when a letter of its path is written %XX in an address.
        program = unpack(Path.of(Files.readString(target.resolve("image/packed.txt")).strip()), plain);
        Path own = Files.createDirectory(plain.resolve("cache"));
        Map<String, String> fresh = Map.of("XDG_CACHE_HOME", own.toString(), "LOCALAPPDATA", own.toString());
        Ended first = run(command("--version"), fresh);
        if (first.code != 0 || !first.err.isEmpty()) {
            return said(first);
        }
        List<Path> archives = awaitArchive(own);
        if (archives.size() != 1) {
            return archives.size() + " archives in the cache folder";
        }
        Path java = program.resolve("runtime/bin").resolve(windows ? "java.exe" : "java");
        Ended ended = run(
                List.of(
                        java.toString(),
                        "-Xlog:class+load=info:stderr",
                        "-XX:SharedArchiveFile=" + archives.get(0),
                        "-jar",
                        program.resolve("rejoin.jar").toString(),
                        "--version"),
                Map.of());
        long shared = ended.err
                .lines()
                .filter(line -> line.contains("org.rejoin") && line.contains("shared objects file"))
                .count();
        Ended quiet = run(command("--version"), fresh);
        return ended.code == 0 && shared > 0 && quiet.err.isEmpty() ? "" : "no class of ours came from it " + said(quiet);
    }

    private List<Path> awaitArchive(Path folder) throws Exception {
        List<Path> found = List.of();
        for (int i = 0; i < 10 * SECONDS && found.isEmpty(); i++) {
            try (Stream<Path> all = Files.walk(folder)) {
                found = all.filter(path -> path.toString().endsWith(".jsa")).toList();
            }
            Thread.sleep(100);
        }
        return found;
    }

    private void check(String what, Check check) {
        String wrong;
        try {
            wrong = check.wrong();
        } catch (Exception e) {
            wrong = e.toString();
        }
        if (!wrong.isEmpty()) {
            failed.add(what + ": " + wrong);
        }
    }

    private static String javaHome() {
        return Path.of(System.getProperty("java.home"), "bin", "java").toString();
    }

    private List<String> command(String... args) {
        List<String> command = new ArrayList<>();
        // Not by "cmd /c": that takes the first and the last quote away where there are more than two.
        command.add(program.resolve(windows ? "rejoin.cmd" : "rejoin").toString());
        command.addAll(List.of(args));
        return command;
    }

    private Ended start(Map<String, String> changed, String... args) throws Exception {
        return run(command(args), changed);
    }

    private Ended run(List<String> command, Map<String, String> changed) throws Exception {
        return ended(process(command, changed).start());
    }

    private ProcessBuilder process(List<String> command, Map<String, String> changed) {
        ProcessBuilder builder = new ProcessBuilder(command).directory(work.toFile());
        Map<String, String> environment = builder.environment();
        environment.keySet().removeIf(name -> name.startsWith("JAVA") || name.startsWith("LC_") || name.equals("LANG"));
        if (!windows) {
            environment.put("PATH", "/usr/bin:/bin");
            environment.put("LANG", "C.UTF-8");
        }
        environment.put("HOME", work.toString());
        environment.put("XDG_CACHE_HOME", cache.toString());
        environment.put("LOCALAPPDATA", cache.toString());
        changed.forEach((name, value) -> {
            if (value == null) {
                environment.remove(name);
            } else {
                environment.put(name, value);
            }
        });
        return builder;
    }

    private static Ended ended(Process process) throws Exception {
        process.getOutputStream().close();
        byte[][] err = {{}};
        Thread reader = new Thread(() -> {
            try (InputStream in = process.getErrorStream()) {
                err[0] = in.readAllBytes();
            } catch (IOException e) {
                err[0] = e.toString().getBytes(StandardCharsets.UTF_8);
            }
        });
        reader.start();
        byte[] out = process.getInputStream().readAllBytes();
        if (!process.waitFor(SECONDS, TimeUnit.SECONDS)) {
            process.destroyForcibly();
            throw new IOException("it did not end within " + SECONDS + " s");
        }
        reader.join();
        return new Ended(process.exitValue(), out, new String(err[0], StandardCharsets.UTF_8));
    }

    private static String said(Ended ended) {
        return "exit " + ended.code + ", "
                + Stream.concat(ended.err.lines(), ended.text().lines()).limit(3).collect(Collectors.joining(" / "));
    }

    private static String sha256(Path file) throws Exception {
        return HexFormat.of().formatHex(MessageDigest.getInstance("SHA-256").digest(Files.readAllBytes(file)));
    }

    private Path unpack(Path zip, Path to) throws IOException {
        try (FileSystem packed = FileSystems.newFileSystem(
                URI.create("jar:" + zip.toUri()), Map.of("enablePosixFileAttributes", "true"))) {
            List<Path> files;
            try (Stream<Path> all = Files.walk(packed.getPath("/"))) {
                files = all.filter(Files::isRegularFile).toList();
            }
            Path top = to.resolve(files.get(0).getName(0).toString());
            for (Path file : files) {
                Path target = to.resolve(file.toString().substring(1));
                Files.createDirectories(target.getParent());
                Files.copy(file, target);
                if (!windows) {
                    Set<PosixFilePermission> permissions = Files.getPosixFilePermissions(file);
                    Files.setPosixFilePermissions(target, permissions);
                }
            }
            return top;
        }
    }

    private void delete(Path folder) throws IOException {
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path path : all.sorted(Comparator.reverseOrder()).toList()) {
                path.getParent().toFile().setWritable(true);
                path.toFile().setWritable(true);
                Files.deleteIfExists(path);
            }
        }
    }
}
