// Something the program is asked for when it is first looked at.
import { useEffect, useState } from "preact/hooks";
import { read } from "../talk.js";

export const useAsked = (path, version) => {
  const [found, setFound] = useState(null);
  useEffect(() => {
    let here = true;
    setFound(null);
    read(path).then((told) => here && setFound(told), (error) => here && setFound({ error: error.message }));
    return () => { here = false; };
  }, [path, version]);
  return found;
};
