//! The store that "saved" refers to: the browser's database, with transactions that it is asked to finish
//! on the disk before it says so.

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use wasm_bindgen::prelude::*;
use wasm_bindgen_futures::JsFuture;
use web_sys::js_sys::{Array, Function, JSON, Object, Promise, Reflect};
use web_sys::{IdbDatabase, IdbKeyRange, IdbObjectStore, IdbRequest, IdbTransaction};

use super::earlier::{self, Version};
use super::queue::{Job, Outcome, Verdict, decide};
use super::record::{Aside, Record, decode};
use super::trouble::{BLOCKED, Trouble};
use crate::plan::steps::Kept;

const NAME: &str = "bathbook";
/// 1 had the first two stores.
const VERSION: u32 = 2;
const PLANS: &str = "plans";
const ASIDE: &str = "aside";
/// By plan: the steps that led to it, as [`Kept::write`] gives them.
const STEPS: &str = "steps";
/// Earlier records, by [`earlier::key`].
const EARLIER: &str = "earlier";
const STORES: [&str; 4] = [PLANS, ASIDE, STEPS, EARLIER];

#[wasm_bindgen]
extern "C" {
    // web-sys has the options of a transaction only behind a compiler flag for all of the program.
    #[wasm_bindgen(extends = IdbDatabase, js_name = IDBDatabase)]
    #[derive(Clone)]
    type Database;
    #[wasm_bindgen(method, catch, js_name = transaction)]
    fn transaction_with(
        this: &Database,
        stores: &Array,
        mode: &str,
        options: &Object,
    ) -> Result<IdbTransaction, JsValue>;
}

/// The database; opened at first use, and again if the browser closed it.
#[derive(Default)]
pub struct Durable {
    open: RefCell<Option<Database>>,
    /// Whether it is known to hold a plan: then one that is found empty was emptied by others.
    holds: Cell<bool>,
}

/// A write that has ended.
pub struct Put {
    /// How.
    pub outcome: Outcome,
    /// Whether all that was kept here had gone before it.
    pub was_emptied: bool,
}

/// What the database holds.
pub struct Contents {
    /// Every plan as key and raw text, unread.
    pub plans: Vec<(String, String)>,
    /// What was set aside as damaged.
    pub aside: Vec<Aside>,
}

impl Durable {
    /// Everything it holds.
    pub async fn read_all(&self) -> Result<Contents, Trouble> {
        let transaction = self.begin(false).await?;
        let plans = entries(&store(&transaction, PLANS)?).await?;
        let aside = entries(&store(&transaction, ASIDE)?).await?;
        let aside = aside.into_iter().map(|(key, raw)| Aside::read(key, raw));
        self.holds.set(!plans.is_empty());
        Ok(Contents { plans, aside: aside.collect() })
    }

    /// The steps that are kept beside a plan, if any.
    pub async fn steps(&self, id: &str) -> Option<String> {
        let transaction = self.begin(false).await.ok()?;
        let request = store(&transaction, STEPS).ok()?.get(&id.into()).ok()?;
        answer(&request).await.ok()?.as_string()
    }

    /// The earlier versions of a plan, newest first.
    pub async fn earlier(&self, id: &str) -> Result<Vec<Version>, Trouble> {
        let transaction = self.begin(false).await?;
        let (all, range) = (store(&transaction, EARLIER)?, range_of(id)?);
        let found = pairs(all.get_all_keys_with_key(&range), all.get_all_with_key(&range)).await?;
        Ok(earlier::versions(id, found))
    }

    /// One plan as it is stored now; none if it is not there or damaged.
    pub async fn read(&self, id: &str) -> Result<Option<Record>, Trouble> {
        let transaction = self.begin(false).await?;
        let request = store(&transaction, PLANS)?.get(&id.into()).map_err(trouble)?;
        let value = answer(&request).await?;
        Ok((!value.is_undefined()).then(|| decode(id, &raw_text(&value)).ok()).flatten())
    }

    /// Writes a plan unless another window has changed it since, with the `steps` that led to it and what it
    /// was before; ends when the transaction has. Where there is no room for all of that, the plan alone.
    pub async fn put(&self, job: &Job, steps: Option<&str>) -> Put {
        let mut put = self.try_put(job, steps, true).await;
        if matches!(put, Err(Trouble::Full)) {
            put = self.try_put(job, None, false).await;
        }
        put.unwrap_or_else(|trouble| Put { outcome: Outcome::Failed(trouble), was_emptied: false })
    }

    async fn try_put(&self, job: &Job, steps: Option<&str>, whole: bool) -> Result<Put, Trouble> {
        let transaction = self.begin(true).await?;
        let ended = ending(&transaction);
        let put = self.put_in(&transaction, job, steps, whole).await;
        if put.is_err() {
            // Half a change must not stay; what failed may have ended it already.
            let _ = transaction.abort();
        }
        let ended = ended.await;
        let put = put?;
        ended?;
        self.holds.set(true);
        Ok(put)
    }

    async fn put_in(
        &self,
        transaction: &IdbTransaction,
        job: &Job,
        steps: Option<&str>,
        whole: bool,
    ) -> Result<Put, Trouble> {
        let plans = store(transaction, PLANS)?;
        let id = job.record.id.as_str();
        let value = answer(&plans.get(&id.into()).map_err(trouble)?).await?;
        let (mut stored, mut was_emptied) = (None, false);
        if !value.is_undefined() {
            let raw = raw_text(&value);
            match decode(id, &raw) {
                Ok(record) => stored = Some(record),
                Err(why) => {
                    put_aside(transaction, &Aside::new(id, raw, why, job.record.saved_at))?;
                }
            }
        } else if self.holds.get() {
            was_emptied = answer(&plans.count().map_err(trouble)?).await?.as_f64() == Some(0.0);
        }
        let write = |record: &Record| put_text(&plans, &record.id, &record.encode());
        let outcome = match (decide(stored.as_ref(), job), stored) {
            (Verdict::Same, Some(stored)) => Outcome::Written(stored.mark()),
            (Verdict::Part, Some(stored)) => {
                write(&job.apart)?;
                if let Some(steps) = steps {
                    put_text(&store(transaction, STEPS)?, &job.apart.id, steps)?;
                }
                Outcome::Parted(Box::new(stored))
            }
            (_, stored) => {
                write(&job.record)?;
                if whole {
                    put_steps(transaction, &job.record, stored.as_ref(), steps).await?;
                    if let Some(stored) = stored.filter(|stored| stored.text != job.record.text) {
                        put_earlier(transaction, &stored, job.record.saved_at).await?;
                    }
                }
                Outcome::Written(job.record.mark())
            }
        };
        Ok(Put { outcome, was_emptied })
    }

    /// Keeps what could not be read, and in the same transaction clears `plan`, where it was found.
    pub async fn set_aside(&self, aside: &Aside, plan: Option<&str>) -> Result<(), Trouble> {
        let transaction = self.begin(true).await?;
        let ended = ending(&transaction);
        put_aside(&transaction, aside)?;
        if let Some(plan) = plan {
            store(&transaction, PLANS)?.delete(&plan.into()).map_err(trouble)?;
        }
        ended.await
    }

    /// Removes a plan from the bin for good, with its steps and earlier versions; only ever by the user's
    /// own wish.
    pub async fn erase(&self, id: &str) -> Result<(), Trouble> {
        let transaction = self.begin(true).await?;
        let ended = ending(&transaction);
        let range = range_of(id)?;
        for (name, key) in [(PLANS, &id.into()), (STEPS, &id.into()), (EARLIER, &range)] {
            store(&transaction, name)?.delete(key).map_err(trouble)?;
        }
        ended.await?;
        // It may have been the last one.
        self.holds.set(false);
        Ok(())
    }

    /// Removes what was set aside; only ever by the user's own wish, or once it could be read after all.
    pub async fn erase_aside(&self, key: &str) -> Result<(), Trouble> {
        let transaction = self.begin(true).await?;
        let ended = ending(&transaction);
        store(&transaction, ASIDE)?.delete(&key.into()).map_err(trouble)?;
        ended.await
    }

    async fn begin(&self, write: bool) -> Result<IdbTransaction, Trouble> {
        let begun = self.try_begin(write).await;
        if matches!(begun, Err(Trouble::Gone)) {
            // The browser closed the database (a newer window opened it, or its data were cleared).
            self.open.take();
            return self.try_begin(write).await;
        }
        begun
    }

    async fn try_begin(&self, write: bool) -> Result<IdbTransaction, Trouble> {
        let kept = self.open.borrow().clone();
        let database = match kept {
            Some(database) => database,
            None => open().await?,
        };
        let options = Object::new();
        Reflect::set(&options, &"durability".into(), &"strict".into()).map_err(trouble)?;
        let stores: Array = STORES.into_iter().map(JsValue::from).collect();
        let mode = if write { "readwrite" } else { "readonly" };
        let transaction = database.transaction_with(&stores, mode, &options).map_err(trouble)?;
        self.open.replace(Some(database));
        Ok(transaction)
    }
}

/// Asks the browser not to clear this site's data by itself, which may ask the user; whether it agreed, if
/// it can be asked. Without `ask`, whether it has agreed before.
pub async fn is_lasting(ask: bool) -> Option<bool> {
    let storage = web_sys::window()?.navigator().storage();
    // Missing where the page is not secure.
    if storage.is_undefined() {
        return None;
    }
    let answer = if ask { storage.persist() } else { storage.persisted() };
    JsFuture::from(answer.ok()?).await.ok()?.as_bool()
}

async fn open() -> Result<Database, Trouble> {
    let window = web_sys::window().ok_or(Trouble::Refused)?;
    let factory = window.indexed_db().ok().flatten().ok_or(Trouble::Refused)?;
    let request = factory.open_with_u32(NAME, VERSION).map_err(|_| Trouble::Refused)?;
    let not_made = Rc::new(RefCell::new(None::<Trouble>));
    let (asked, noted) = (request.clone(), not_made.clone());
    let upgrade = Closure::once_into_js(move || {
        let made = asked.result().and_then(|value| make_stores(&value.unchecked_into()));
        if let Err(error) = made {
            noted.replace(Some(trouble(error)));
            // The database stays as it was before, for the next try.
            if let Some(transaction) = asked.transaction() {
                let _ = transaction.abort();
            }
        }
    });
    request.set_onupgradeneeded(Some(upgrade.unchecked_ref()));
    let opened = Promise::new(&mut |resolve, reject| {
        listen(&request, resolve, reject.clone());
        let blocked = Closure::once_into_js(move || {
            let error = Object::new();
            let _ = Reflect::set(&error, &"name".into(), &BLOCKED.into());
            let _ = reject.call1(&JsValue::UNDEFINED, &error);
        });
        request.set_onblocked(Some(blocked.unchecked_ref()));
    });
    let database: Database = match JsFuture::from(opened).await {
        Ok(database) => database.unchecked_into(),
        // An open that is refused has no other reason that a person could mend.
        Err(error) => {
            return Err(match not_made.take().unwrap_or_else(|| trouble(error)) {
                Trouble::Gone => Trouble::Refused,
                other => other,
            });
        }
    };
    // A newer version of the app in another window must not be held up by this one.
    let held: IdbDatabase = database.clone().unchecked_into();
    let give_way = Closure::once_into_js(move || held.close());
    database.set_onversionchange(Some(give_way.unchecked_ref()));
    Ok(database)
}

/// Makes the stores that an earlier version did not have.
fn make_stores(database: &IdbDatabase) -> Result<(), JsValue> {
    for name in STORES {
        if let Err(error) = database.create_object_store(name) {
            let is_there = text_at(&error, "name") == "ConstraintError";
            if !is_there {
                return Err(error);
            }
        }
    }
    Ok(())
}

fn store(transaction: &IdbTransaction, name: &str) -> Result<IdbObjectStore, Trouble> {
    transaction.object_store(name).map_err(trouble)
}

fn put_aside(transaction: &IdbTransaction, aside: &Aside) -> Result<(), Trouble> {
    let text = serde_json::to_string(aside).unwrap_or_else(|_| aside.raw.clone());
    put_text(&store(transaction, ASIDE)?, &aside.key, &text)
}

/// Keeps the steps that led to `record`; where none are known, those that led to what it replaces, and one
/// more from there.
async fn put_steps(
    transaction: &IdbTransaction,
    record: &Record,
    stored: Option<&Record>,
    steps: Option<&str>,
) -> Result<(), Trouble> {
    let all = store(transaction, STEPS)?;
    let id = record.id.as_str();
    if let Some(steps) = steps {
        return put_text(&all, id, steps);
    }
    let Some(stored) = stored.filter(|stored| stored.text != record.text) else { return Ok(()) };
    let known = answer(&all.get(&id.into()).map_err(trouble)?).await?.as_string();
    match known.and_then(|known| Kept::carried(&known, &stored.text, &record.text)) {
        Some(steps) => put_text(&all, id, &steps),
        None => Ok(()),
    }
}

/// Keeps what is replaced as an earlier version, if one is due, and lets go of those that are too many.
async fn put_earlier(transaction: &IdbTransaction, stored: &Record, now: f64) -> Result<(), Trouble> {
    let all = store(transaction, EARLIER)?;
    let keys = all.get_all_keys_with_key(&range_of(&stored.id)?).map_err(trouble)?;
    let keys: Array = answer(&keys).await?.unchecked_into();
    let mut times: Vec<f64> = keys.iter().filter_map(|key| earlier::time(&key.as_string()?)).collect();
    if !earlier::is_due(&times, stored.saved_at, now) {
        return Ok(());
    }
    put_text(&all, &earlier::key(&stored.id, stored.saved_at), &stored.encode())?;
    times.push(stored.saved_at);
    // A clock that was put back leaves them out of order.
    crate::order::sort(&mut times, f64::total_cmp);
    for time in earlier::thinned(&times, now) {
        all.delete(&earlier::key(&stored.id, time).into()).map_err(trouble)?;
    }
    Ok(())
}

/// Where the earlier versions of a plan stand.
fn range_of(id: &str) -> Result<JsValue, Trouble> {
    let [first, last] = earlier::keys_of(id);
    IdbKeyRange::bound(&first.into(), &last.into()).map(JsValue::from).map_err(trouble)
}

fn put_text(store: &IdbObjectStore, key: &str, text: &str) -> Result<(), Trouble> {
    store.put_with_key(&text.into(), &key.into()).map(drop).map_err(trouble)
}

async fn entries(store: &IdbObjectStore) -> Result<Vec<(String, String)>, Trouble> {
    pairs(store.get_all_keys(), store.get_all()).await
}

/// What two requests for the keys and the values of the same find.
async fn pairs(
    keys: Result<IdbRequest, JsValue>,
    values: Result<IdbRequest, JsValue>,
) -> Result<Vec<(String, String)>, Trouble> {
    let (keys, values) = (keys.map_err(trouble)?, values.map_err(trouble)?);
    let keys: Array = answer(&keys).await?.unchecked_into();
    let values: Array = answer(&values).await?.unchecked_into();
    Ok(keys.iter().zip(values.iter()).map(|(key, value)| (raw_text(&key), raw_text(&value))).collect())
}

/// The text that was stored, or what else is found there in the nearest text form.
fn raw_text(value: &JsValue) -> String {
    value
        .as_string()
        .unwrap_or_else(|| JSON::stringify(value).ok().and_then(|text| text.as_string()).unwrap_or_default())
}

/// What a request answers. Awaiting it keeps the transaction alive: the waiting code runs before the
/// browser goes on.
async fn answer(request: &IdbRequest) -> Result<JsValue, Trouble> {
    // The promise's own functions listen: a closure that is never called would never be freed, and would
    // hold the request with all that it read.
    let promise = Promise::new(&mut |resolve, reject| {
        request.set_onsuccess(Some(&resolve));
        request.set_onerror(Some(&reject));
    });
    match JsFuture::from(promise).await {
        Ok(_) => request.result().map_err(trouble),
        Err(_) => Err(trouble(request.error().ok().flatten().map_or(JsValue::UNDEFINED, JsValue::from))),
    }
}

/// As [`answer`], for the one request that opens the database and whose promise others too may refuse.
fn listen(request: &IdbRequest, resolve: Function, reject: Function) {
    let (good, bad) = (request.clone(), request.clone());
    let success = Closure::once_into_js(move || {
        let result = good.result().unwrap_or(JsValue::UNDEFINED);
        let _ = resolve.call1(&JsValue::UNDEFINED, &result);
    });
    let failure = Closure::once_into_js(move || {
        let error = bad.error().ok().flatten().map_or(JsValue::UNDEFINED, JsValue::from);
        let _ = reject.call1(&JsValue::UNDEFINED, &error);
    });
    request.set_onsuccess(Some(success.unchecked_ref()));
    request.set_onerror(Some(failure.unchecked_ref()));
}

/// Ends when the transaction has completed, or was given up. Listens at once, not when first awaited.
fn ending(transaction: &IdbTransaction) -> impl Future<Output = Result<(), Trouble>> + use<> {
    let promise = Promise::new(&mut |resolve, reject| {
        transaction.set_oncomplete(Some(&resolve));
        transaction.set_onabort(Some(&reject));
    });
    let (ended, transaction) = (JsFuture::from(promise), transaction.clone());
    async move {
        let given_up = |_| trouble(transaction.error().map_or(JsValue::UNDEFINED, JsValue::from));
        ended.await.map(drop).map_err(given_up)
    }
}

/// What an error of either store comes to.
pub(super) fn trouble(error: JsValue) -> Trouble {
    let (name, message) = (text_at(&error, "name"), text_at(&error, "message"));
    if name.is_empty() && message.is_empty() {
        return Trouble::Unknown("the store gave no reason".into());
    }
    Trouble::named(&name, &message)
}

/// A text that an error holds.
fn text_at(error: &JsValue, key: &str) -> String {
    Reflect::get(error, &key.into()).ok().and_then(|value| value.as_string()).unwrap_or_default()
}
