import './styles/tokens.css';
import './styles/page.css';
import './styles/keys.css';

import { mount } from 'svelte';

import App from './app.svelte';
import { choices } from './state/choices.svelte';
import { place } from './state/place.svelte';
import { room } from './state/room.svelte';
import { session } from './state/session.svelte';

choices.start();
place.start();
room.start();
void session.start();

export default mount(App, { target: document.getElementById('page')! });
