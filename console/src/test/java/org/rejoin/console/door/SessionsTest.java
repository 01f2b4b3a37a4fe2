package org.rejoin.console.door;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;

import org.rejoin.console.door.Sessions.Role;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Who is in, and who comes in. */
class SessionsTest {

    private static final byte[] SECRET = "a secret of 32 octets in a folder".getBytes(StandardCharsets.UTF_8);
    private static final Instant NOW = Instant.parse("2026-06-01T08:00:00Z");

    private static final JoinCodes.Answer LET_IN =
            new JoinCodes.Answer(Optional.of(new JoinCodes.Joined(Role.PILOT, "a")), Duration.ZERO);
    private static final JoinCodes.Answer UNKNOWN = new JoinCodes.Answer(Optional.empty(), Duration.ZERO);

    @TempDir
    private Path folder;

    /** RFC 4231, test case 2. */
    @Test
    void theKeyedHashIsTheStandards() {
        byte[] key = "Jefe".getBytes(StandardCharsets.US_ASCII);
        assertThat(HexFormat.of().formatHex(KeyedHash.plain(key).of("what do ya want for nothing?")))
                .isEqualTo("5bdcc146bf60754e6a042426089575c75a003f089d2739839dec58b964ec3843");
    }

    @Test
    void aTabletStaysInOverARestartAndTheNight() throws IOException {
        Sessions today = Sessions.of(SECRET, folder);
        String cookie = today.begin(Role.PILOT, "293f43c9", NOW);
        assertThat(cookie).matches("[A-Za-z0-9._-]+");
        Sessions.Session session = Sessions.of(SECRET, folder)
                .holder(cookie, NOW.plus(Duration.ofHours(26)))
                .orElseThrow();
        assertThat(session.role()).isEqualTo(Role.PILOT);
        assertThat(session.subject()).isEqualTo("293f43c9");
        assertThat(session.since()).isEqualTo(NOW);
        assertThat(today.holder(cookie, NOW.plus(Sessions.LIFE).plusSeconds(1)))
                .as("too old")
                .isEmpty();
    }

    @Test
    void whatWasNotSignedHereIsNobody() throws IOException {
        Sessions sessions = Sessions.of(SECRET, folder);
        String cookie = sessions.begin(Role.PILOT, "a", NOW);
        String instructors = cookie.replaceFirst("^1\\.PILOT\\.", "1.INSTRUCTOR.");
        assertThat(instructors).isNotEqualTo(cookie);
        for (String bad : List.of(
                "",
                ".",
                "....",
                instructors,
                cookie + "x",
                cookie.substring(1),
                "x".repeat(10_000),
                Sessions.of(new byte[32], folder).begin(Role.PILOT, "a", NOW))) {
            assertThat(sessions.holder(bad, NOW)).as(bad).isEmpty();
        }
    }

    @Test
    void aPilotsSessionsOrAllAreTakenBackForGood() throws IOException {
        Sessions sessions = Sessions.of(SECRET, folder);
        String two = sessions.begin(Role.PILOT, "a", NOW);
        String other = sessions.begin(Role.PILOT, "b", NOW);
        String chief = sessions.begin(Role.INSTRUCTOR, "", NOW);
        Sessions restarted = Sessions.of(SECRET, folder);
        assertThat(restarted.holder(two, NOW)).isPresent();
        restarted.revokeAllOf("a", NOW);
        assertThat(restarted.holder(two, NOW)).isEmpty();
        assertThat(restarted.holder(other, NOW)).isPresent();
        String later = restarted.begin(Role.PILOT, "a", NOW.plusSeconds(1));
        assertThat(Sessions.of(SECRET, folder).holder(later, NOW)).isPresent();
        restarted.revokeAll(NOW);
        for (String each : List.of(other, chief, later)) {
            assertThat(Sessions.of(SECRET, folder).holder(each, NOW)).isEmpty();
        }
    }

    @Test
    void whatWasTakenBackIsForgottenWhenItIsTooOldAnyway() throws IOException {
        Sessions sessions = Sessions.of(SECRET, folder);
        sessions.revokeAllOf("old", NOW);
        sessions.revokeAllOf("new", NOW.plus(Sessions.LIFE).plusSeconds(1));
        assertThat(folder.resolve("sessions.json")).content().contains("new").doesNotContain("old");
        Files.writeString(folder.resolve("sessions.json"), "{");
        assertThatThrownBy(() -> Sessions.of(SECRET, folder))
                .hasMessageContaining("is damaged")
                .hasMessageNotContaining("\n");
    }

    @Test
    void aJoinCodeIsGoodForTenMinutesHoweverItIsTyped() {
        JoinCodes codes = new JoinCodes();
        String code = codes.open(Role.PILOT, "a", NOW);
        assertThat(code).matches("[2-9B-DF-HJ-NP-TV-Z]{6}");
        String typed = code.toLowerCase(Locale.ROOT).substring(0, 3) + " - " + code.substring(3);
        assertThat(codes.join(typed, "10.0.0.1", NOW.plusSeconds(599))).isEqualTo(LET_IN);
        assertThat(codes.join(code, "10.0.0.1", NOW.plusSeconds(600))).isEqualTo(UNKNOWN);
        String first = codes.open(Role.PILOT, "b", NOW);
        String second = codes.open(Role.PILOT, "b", NOW);
        assertThat(codes.join(first, "10.0.0.2", NOW)).isEqualTo(UNKNOWN);
        codes.close(Role.PILOT, "b");
        assertThat(codes.join(second, "10.0.0.2", NOW)).isEqualTo(UNKNOWN);
    }

    @Test
    void whoeverGuessesIsHeldUpAndTheOthersAreNot() {
        JoinCodes codes = new JoinCodes();
        String code = codes.open(Role.PILOT, "a", NOW);
        for (int i = 0; i < 10; i++) {
            assertThat(codes.join("222222", "10.0.0.9", NOW)).isEqualTo(UNKNOWN);
        }
        assertThat(codes.join(code, "10.0.0.9", NOW.plusSeconds(20)))
                .as("not even the right one")
                .isEqualTo(new JoinCodes.Answer(Optional.empty(), Duration.ofSeconds(40)));
        assertThat(codes.join(code, "10.0.0.1", NOW.plusSeconds(20))).isEqualTo(LET_IN);
        assertThat(codes.join(code, "10.0.0.9", NOW.plusSeconds(60))).isEqualTo(LET_IN);
        for (int i = 0; i < 60; i++) {
            codes.join("222222", "10.0.1." + i, NOW.plusSeconds(100));
        }
        assertThat(codes.join(code, "10.0.0.1", NOW.plusSeconds(101)).after()).isPositive();
    }
}
