//! `ids.json`: retired ids and recalled values.

use crate::bundle as json;
use crate::model::{Model, Recall, Retired};

/// Retired ids and recalled values as JSON.
pub fn ids(model: &Model) -> json::Ids {
    json::Ids {
        retired: model.retired.iter().map(retired).collect(),
        recall: model.recalls.iter().map(recall).collect(),
    }
}

fn retired(retired: &Retired) -> json::Retired {
    json::Retired {
        id: retired.id.clone(),
        fate: retired.fate.word().to_owned(),
        to: retired.to.iter().map(|(id, _)| id.clone()).collect(),
        because: retired.because.clone(),
        release: retired.release.clone(),
    }
}

fn recall(recall: &Recall) -> json::Recall {
    json::Recall {
        engine: recall.engine.clone(),
        of: recall.of.clone(),
        place: recall.place.clone(),
        when: recall.when.clone(),
        value: recall.value.clone(),
        releases: recall.releases.clone(),
        because: recall.because.clone(),
    }
}
