package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.net.URI;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

import org.junit.jupiter.api.Test;

/** The room's page is opened by a fixed program of the system, and only where there is a screen to show it on. */
class WebBrowserTest {

    private static final URI PAGE = URI.create("http://127.0.0.1:8047/");

    private static Optional<List<String>> command(String system, Map<String, String> environment) {
        return WebBrowser.command(system, environment::get, program -> true, PAGE);
    }

    @Test
    void eachSystemHasItsOneProgramWithTheAddressAsOneArgument() {
        assertThat(command("Linux", Map.of("DISPLAY", ":0")))
                .contains(List.of("/usr/bin/xdg-open", "http://127.0.0.1:8047/"));
        assertThat(command("Linux", Map.of("WAYLAND_DISPLAY", "wayland-0"))).isPresent();
        assertThat(command("Mac OS X", Map.of())).contains(List.of("/usr/bin/open", "http://127.0.0.1:8047/"));
        assertThat(command("Windows 11", Map.of("SystemRoot", "C:\\Windows")))
                .contains(List.of(
                        "C:\\Windows\\System32\\rundll32.exe",
                        "url.dll,FileProtocolHandler",
                        "http://127.0.0.1:8047/"));
    }

    @Test
    void withoutAScreenOfItsOwnNothingIsOpened() {
        assertThat(command("Linux", Map.of())).isEmpty();
        assertThat(command("Linux", Map.of("DISPLAY", " "))).isEmpty();
        assertThat(command("Windows 11", Map.of())).isEmpty();
        Map<String, String> screen = Map.of("DISPLAY", ":0", "SystemRoot", "C:\\Windows");
        for (String system : List.of("Linux", "Mac OS X", "Windows 11")) {
            Map<String, String> remote = new HashMap<>(screen);
            remote.put("SSH_CONNECTION", "192.0.2.7 50000 192.0.2.8 22");
            assertThat(command(system, remote)).as(system).isEmpty();
            assertThat(WebBrowser.command(system, screen::get, program -> false, PAGE))
                    .as(system + ", not installed")
                    .isEmpty();
        }
    }
}
