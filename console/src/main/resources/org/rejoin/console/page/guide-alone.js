// The guide beside a single flight's page: a way back and the look; no views to lead to.
import { element } from '/dom.js';
import { themeSwitch } from '/theme.js';

const head = document.querySelector('header');
const back = element('a', 'Back to the flight', 'button');
back.href = '/';
const look = element('button', 'Light page');
look.type = 'button';
look.id = 'theme';
head.append(back, look);
themeSwitch(look, () => {});
