//! Windows of this app on one device tell each other which plan they saved.

use serde::{Deserialize, Serialize};
use wasm_bindgen::prelude::*;
use web_sys::{BroadcastChannel, MessageEvent};

use super::record::Mark;

#[derive(Serialize, Deserialize)]
struct Told {
    id: String,
    mark: Mark,
}

/// The line to the other windows; without one (an old browser) the check inside each write still holds.
pub struct Tabs {
    channel: Option<BroadcastChannel>,
    _hear: Closure<dyn FnMut(MessageEvent)>,
}

impl Tabs {
    /// Opens the line. `heard` is called with each plan that another window saved.
    pub fn new(heard: impl Fn(String, Mark) + 'static) -> Tabs {
        let hear = Closure::<dyn FnMut(MessageEvent)>::new(move |event: MessageEvent| {
            let text = event.data().as_string().unwrap_or_default();
            if let Ok(Told { id, mark }) = serde_json::from_str(&text) {
                heard(id, mark);
            }
        });
        let channel = BroadcastChannel::new("bathbook").ok();
        if let Some(channel) = &channel {
            channel.set_onmessage(Some(hear.as_ref().unchecked_ref()));
        }
        Tabs { channel, _hear: hear }
    }

    /// Tells the other windows that this plan is stored now.
    pub fn tell(&self, id: &str, mark: &Mark) {
        let told = Told { id: id.into(), mark: mark.clone() };
        if let (Some(channel), Ok(text)) = (&self.channel, serde_json::to_string(&told)) {
            // Only a closed line fails, and then nobody listens.
            let _ = channel.post_message(&text.into());
        }
    }
}

impl Drop for Tabs {
    fn drop(&mut self) {
        if let Some(channel) = &self.channel {
            channel.set_onmessage(None);
            channel.close();
        }
    }
}
