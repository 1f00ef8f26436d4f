//! Takes one change back out of a record that has gone on since: what else was typed stays.

use pailwise_kept::envelope;
use serde_json::{Map, Value};

/// The text that stands under a key once a change of it is undone: from what stood there before it
/// and after it, and what stands there now. `None` is that nothing stands there.
pub(crate) fn reverted(
    before: Option<&str>,
    after: Option<&str>,
    now: Option<&str>,
) -> Option<String> {
    let as_it_was = before.map(str::to_owned);
    match (before, after, now) {
        _ if now == after => as_it_was,
        (Some(before), Some(after), Some(now)) => within(before, after, now).or(as_it_was),
        // What the change made goes; what it took away and somebody made again stays.
        (None, ..) => None,
        (Some(_), ..) => now.map(str::to_owned),
    }
}

/// The same for three records; nothing where one cannot be read.
fn within(before: &str, after: &str, now: &str) -> Option<String> {
    let read =
        |text: &str| -> Option<Value> { serde_json::from_str(envelope::unwrap(text).ok()?).ok() };
    let value = merged(&read(before)?, &read(after)?, read(now)?);
    Some(envelope::wrap(&value.to_string()))
}

/// What a value is without the change from `before` to `after`: where it was changed again since,
/// it stays.
fn merged(before: &Value, after: &Value, now: Value) -> Value {
    if before == after {
        return now;
    }
    if now == *after {
        return before.clone();
    }
    match (before, after, now) {
        (Value::Object(before), Value::Object(after), Value::Object(now)) => {
            Value::Object(fields(before, after, now))
        }
        (Value::Array(before), Value::Array(after), Value::Array(now)) => {
            Value::Array(rows(before, after, now))
        }
        (_, _, now) => now,
    }
}

fn fields(
    before: &Map<String, Value>,
    after: &Map<String, Value>,
    mut now: Map<String, Value>,
) -> Map<String, Value> {
    let only_after = after.keys().filter(|name| !before.contains_key(*name));
    for name in before.keys().chain(only_after) {
        match (before.get(name), after.get(name)) {
            (Some(before), Some(after)) => {
                if let Some(value) = now.remove(name) {
                    now.insert(name.clone(), merged(before, after, value));
                }
            }
            // Taken away by the change, and not there again.
            (Some(before), None) if !now.contains_key(name) => {
                now.insert(name.clone(), before.clone());
            }
            (None, Some(_)) => drop(now.remove(name)),
            _ => {}
        }
    }
    now
}

fn rows(before: &[Value], after: &[Value], mut now: Vec<Value>) -> Vec<Value> {
    if before.len() == after.len() && now.len() == after.len() {
        let all = before.iter().zip(after).zip(now);
        return all.map(|((before, after), now)| merged(before, after, now)).collect();
    }
    // What was put in or taken out stands between what is the same on both sides of it.
    let same = |pair: &(&Value, &Value)| pair.0 == pair.1;
    let ahead = before.iter().zip(after).take_while(same).count();
    let least = before.len().min(after.len()) - ahead;
    let behind = before.iter().rev().zip(after.iter().rev()).take(least).take_while(same).count();
    let taken_out = before.get(ahead..before.len() - behind).unwrap_or_default();
    let put_in = after.len() - behind - ahead;
    let at = ahead.min(now.len());
    let goes = put_in.min(now.len() - at);
    now.splice(at..at + goes, taken_out.iter().cloned());
    now
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    fn undone(before: &Value, after: &Value, now: &Value) -> Value {
        let text = |value: &Value| envelope::wrap(&value.to_string());
        let (before, after, now) = (text(before), text(after), text(now));
        let back = reverted(Some(&before), Some(&after), Some(&now)).unwrap();
        serde_json::from_str(envelope::unwrap(&back).unwrap()).unwrap()
    }

    #[test]
    fn what_was_typed_since_stays() {
        let before = json!({"area": "400", "mixers": 0, "coats": [{"p": "a"}, {"p": "b"}]});
        let after = json!({"area": "400", "mixers": 1, "coats": [{"p": "a"}, {"p": "b"}]});
        let now = json!({"area": "350", "mixers": 1, "coats": [{"p": "a"}, {"p": "c"}]});
        let wanted = json!({"area": "350", "mixers": 0, "coats": [{"p": "a"}, {"p": "c"}]});
        assert_eq!(undone(&before, &after, &now), wanted);
        // Where the very same was changed since, that stays too.
        let now = json!({"area": "350", "mixers": 3, "coats": [{"p": "a"}, {"p": "b"}]});
        assert_eq!(undone(&before, &after, &now), now);
    }

    #[test]
    fn a_row_that_was_taken_away_comes_back_between_those_typed_into() {
        let row = |id: &str, text: &str| json!({"id": id, "text": text});
        let before = json!({"rows": [row("a", ""), row("b", ""), row("c", "")]});
        let after = json!({"rows": [row("a", ""), row("c", "")]});
        let now = json!({"rows": [row("a", "1"), row("c", "2")]});
        let wanted = json!({"rows": [row("a", "1"), row("b", ""), row("c", "2")]});
        assert_eq!(undone(&before, &after, &now), wanted);
        // And what was added since stays behind it.
        let now = json!({"rows": [row("a", "1"), row("c", ""), row("d", "")]});
        let wanted = json!({"rows": [row("a", "1"), row("b", ""), row("c", ""), row("d", "")]});
        assert_eq!(undone(&before, &after, &now), wanted);
        // A row that the change put in goes, whatever was typed into it.
        let now = json!({"rows": [row("a", "1"), row("b", "x"), row("c", "")]});
        let wanted = json!({"rows": [row("a", "1"), row("c", "")]});
        assert_eq!(undone(&after, &before, &now), wanted);
    }

    #[test]
    fn nothing_typed_since_is_as_it_was() {
        let (before, after) = ("x", "y");
        assert_eq!(reverted(Some(before), Some(after), Some(after)).as_deref(), Some("x"));
        assert_eq!(reverted(None, Some(after), Some(after)), None);
        assert_eq!(reverted(Some(before), None, None).as_deref(), Some("x"));
        // Made again since it was taken away.
        assert_eq!(reverted(Some(before), None, Some("z")).as_deref(), Some("z"));
        // No record: as it was.
        assert_eq!(reverted(Some(before), Some(after), Some("z")).as_deref(), Some("x"));
    }

    /// Whatever the lengths, nothing is cut off that the change had no part in.
    #[test]
    fn rows_of_any_number() {
        let rows = |n: usize| (0..n).map(|i| json!(i)).collect::<Vec<_>>();
        for before in 0..5 {
            for after in 0..5 {
                for now in 0..6 {
                    let back = super::rows(&rows(before), &rows(after), rows(now));
                    let put_in = after.saturating_sub(before).min(now.saturating_sub(before));
                    let wanted = now + before.saturating_sub(after) - put_in;
                    assert_eq!(back.len(), wanted, "{before}, {after}, {now}");
                }
            }
        }
    }
}
