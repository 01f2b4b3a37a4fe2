/**
 * Lessons: chart, filed route, practice start, amendments and when they are spoken. Start at {@code Lesson}.
 */
@NullMarked
package org.rejoin.console.lesson;

import org.jspecify.annotations.NullMarked;
