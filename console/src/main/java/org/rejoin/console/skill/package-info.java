/**
 * What a pilot can do, estimated from the marks of his flights and drills: skills, their estimates with intervals,
 * forgetting, when a skill is due, and how hard a drill is. Pure; start at {@link org.rejoin.console.skill.Progress}.
 */
@NullMarked
package org.rejoin.console.skill;

import org.jspecify.annotations.NullMarked;
